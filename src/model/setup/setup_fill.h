/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_SETUP_FILL_H
#define SILLET_MODEL_SETUP_SETUP_FILL_H

#include "model/setup/setup.h"

/*
 * An array of readings by string made whole: a string that is not read by itself as its course,
 * between measured strings linearly by course, outside them the nearest. A reading that is
 * `unsure` is not taken over to other courses.
 * ret_known says what was read, what taken and what neither; false when no
 * string was measured at all. Elements 1 .. strings.
 */
bool setup_fill_strings(const struct maybe *read, const bool *unsure, const struct outfit *outfit,
                        double *ret_value, enum known *ret_known);

/* The same of the gaps and of the actions read. A string that starts higher stands lower at the
 * action fret than its neighbours, whose action says nothing of its own. */
bool setup_fill_gaps(const struct setup *setup, double *ret_mm, enum known *ret_known);
bool setup_fill_actions(const struct setup *setup, double *ret_mm, enum known *ret_known);

#endif
