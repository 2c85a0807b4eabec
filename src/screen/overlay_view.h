/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_OVERLAY_VIEW_H
#define SILLET_SCREEN_OVERLAY_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* Lines that scroll: the first `skip` lines are left out, then those that fit in the rows
 * row .. end - 1 are drawn. */
struct scroll {
    const struct pen *pen;
    int row, end, skip;
};

/* Puts a text from a column on, broken at blanks. */
void scroll_put(struct scroll *scroll, int column, enum role role, const char *text);

/* The names of keys (command_keys_name) and what they do. */
void scroll_key(struct scroll *scroll, const char *keys, const char *words);

/* Draws the key help, from the command table, or the explanation of the figure that goes with the
 * cell in hand. Fills the rows between the title strip and the key line. */
void overlay_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

#endif
