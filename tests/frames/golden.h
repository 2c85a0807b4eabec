/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_GOLDEN_H
#define SILLET_TESTS_GOLDEN_H

#include "draw/frame.h"

/*
 * Screens kept as files, NAME.frame in this folder: the size and the cursor, the text of
 * every row, and every cell's role by its letter (draw/frame.h), each row after a bar.
 */

/*
 * Fails the test, printing the rows that differ (- kept, + now), when the frame is not the
 * kept one. With GENERATE=1 in the environment the file is written instead: look at it
 * before it is kept.
 */
void golden_check(const struct frame *frame, const char *name);

#endif
