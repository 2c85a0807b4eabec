/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_PICTURE_VIEW_H
#define SILLET_DRAW_PICTURE_VIEW_H

#include "picture/picture.h"
#include "draw/pen.h"

/* Pictures put into the dots of a canvas. */

/* Where the dots are, and how many columns left of them are for the levels' texts. */
struct picture_area {
    int row, rows, column, columns;
    int scale;
};

/* The picture and its levels; nothing in an area without a cell. */
void picture_view_draw(const struct pen *pen, const struct picture *picture,
                       const struct picture_area *area);

/* The ticks' numbers in the row under it from column `free` on, as many as find room. */
void picture_view_ticks(const struct pen *pen, const struct picture *picture,
                        const struct picture_area *area, int free);

/* A sample of a line for the key, after its words, and `gap` columns. Returns the columns of
 * it all. */
int picture_view_key(const struct pen *pen, int row, int column, const char *words,
                     enum picture_role role, int gap);

/* How many times the dots show heights larger than lengths. */
double picture_view_times(const struct picture *picture, const struct picture_area *area);

#endif
