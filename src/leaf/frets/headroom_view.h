/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_HEADROOM_VIEW_H
#define SILLET_LEAF_FRETS_HEADROOM_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* How much of the screen the map takes, and the note looked at on it. */
struct headroom_area {
    int row, rows; /* heading, numbers, and a row for each string as far as there is room */
    int spare;     /* rows under it that the headrooms in numbers may take */
    int strings, frets;
    int string, note; /* note -1: none */
};

enum { HEADROOM_HEADING = 2 };

/*
 * The headroom of every note in marks, a row for each string and a column for each note,
 * with what was heard of it, and the cells for the lists of notes heard beside it. A
 * heading with the legend, the fret numbers, then the strings; scrolls to the note looked
 * at and to the string in hand. Where a large screen has room for them, the same headrooms
 * in mm follow. Returns the rows taken.
 */
int headroom_view_draw(const struct pen *pen, const struct app *app,
                       const struct headroom_area *area);

#endif
