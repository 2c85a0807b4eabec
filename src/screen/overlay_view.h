/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_OVERLAY_VIEW_H
#define SILLET_SCREEN_OVERLAY_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* Lines that scroll: `skip` lines are left out first, then those that find room in the rows
 * row .. end - 1 are drawn. */
struct scroll {
    const struct pen *pen;
    int row, end, skip;
};

/* A text from a column on, broken at blanks. */
void scroll_put(struct scroll *scroll, int column, enum role role, const char *text);

/* The names of keys (command_keys_name) and what they do. */
void scroll_key(struct scroll *scroll, const char *keys, const char *words);

/* The keys, from the command table; or how the figure beside the cell in hand comes about.
 * Fills the rows between the title strip and the key line. */
void overlay_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
