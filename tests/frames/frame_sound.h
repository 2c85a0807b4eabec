/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_FRAME_SOUND_H
#define SILLET_TESTS_FRAME_SOUND_H

#include "session/app.h"
#include "draw/frame.h"

/* Invariants of every screen, whatever it shows. */

/*
 * Fails the test unless every cell holds a character that may be shown, wide ones whole, in
 * ASCII only ASCII; the cursor stands inside, and on a screen that is large enough it is there.
 */
void frame_sound_check(const struct app *app, const struct frame *frame, bool utf8);

/*
 * Fails the test unless no text was written over another one, the cursor stands on the cell in
 * hand, and the rows at the foot say what is asked for and which keys there are. `name` is what
 * the failure is told by.
 */
void frame_sound_check_leaf(const struct app *app, const struct frame *frame, const char *name);

#endif
