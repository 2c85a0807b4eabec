/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SCREEN_UI_H
#define SILLET_SCREEN_UI_H

#include <stdbool.h>

#include "session/app.h"
#include "draw/frame.h"

/* The smallest terminal that a leaf is laid out for. */
enum { UI_ROWS_MIN = 24, UI_COLUMNS_MIN = 80 };

/*
 * Composes the whole screen of a session into a frame of any size: the current leaf with
 * its overlay, or, below the smallest size, a sentence that says so. With `utf8` false
 * only ASCII is written.
 */
void ui_compose(const struct app *app, bool utf8, struct frame *frame);

#endif
