/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_CHOICE_VIEW_H
#define SILLET_SCREEN_CHOICE_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* Lists the names that the typed text could mean, numbered, in as many rows above `row` as they
 * need, at most CHOICE_VIEW_ROWS. A longer list shows the page with the one that Enter takes.
 * Draws nothing if there are none. */
enum { CHOICE_VIEW_ROWS = 7 }; /* the line over them included */

void choice_view_draw(const struct pen *pen, const struct app *app, int row);

#endif
