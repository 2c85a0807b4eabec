/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_PITCH_LEAF_PITCH_H
#define SILLET_LEAF_PITCH_LEAF_PITCH_H

#include "session/app.h"
#include "words/pitch_plan.h"

/* The columns of the Pitch leaf: the setback, then the cents of each fret in the column of its
 * number. Rows: strings, the bass string first. */
enum { PITCH_SETBACK_COLUMN = 0 };

/* What the leaf keeps. */
static inline struct pitch_plan *pitch_state(const struct app *app)
{
    return app->state[LEAF_PITCH];
}

#endif
