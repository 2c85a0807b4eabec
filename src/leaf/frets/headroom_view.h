/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_HEADROOM_VIEW_H
#define SILLET_LEAF_FRETS_HEADROOM_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The area for the map, and the note looked at on it. */
struct headroom_area {
    int row, rows; /* heading, numbers, and as many rows of strings as fit */
    int spare;     /* rows under it that may show the headrooms in numbers */
    int strings, frets;
    int string, note; /* note -1: none */
};

enum { HEADROOM_HEADING = 2 };

/*
 * The headroom of every note as marks, a row for each string and a column for each note,
 * with what was heard there, and beside it the cells for the lists of notes heard. A
 * heading with the legend, the fret numbers, then the strings; scrolls to the note looked
 * at and to the string in hand. If the screen has room, the same headrooms follow in
 * numbers, in the shop's units. Returns the rows used.
 */
int headroom_view_draw(const struct pen *pen, const struct app *app,
                       const struct headroom_area *area);

#endif
