/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_PICTURE_VIEW_H
#define SILLET_DRAW_PICTURE_VIEW_H

#include "picture/picture.h"
#include "draw/pen.h"

/* Draws pictures as the dots of a canvas. */

/* The area of the dots, and how many columns to its left are for the labels of the levels. */
struct picture_area {
    int row, rows, column, columns;
    int scale;
};

/* Draws the picture and its levels; nothing if the area has no cell. */
void picture_view_draw(const struct pen *pen, const struct picture *picture,
                       const struct picture_area *area);

/* The ticks' numbers in the row under it, from column `free` on, as many as fit. */
void picture_view_ticks(const struct pen *pen, const struct picture *picture,
                        const struct picture_area *area, int free);

/* Words for the key, a sample of their line, and `gap` columns. Returns the columns used
 * in all. */
int picture_view_key(const struct pen *pen, int row, int column, const char *words,
                     enum picture_role role, int gap);

/* By how much the dots exaggerate heights over lengths. */
double picture_view_times(const struct picture *picture, const struct picture_area *area);

#endif
