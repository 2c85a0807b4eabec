/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_FRETS_LEAF_FRETS_H
#define SILLET_LEAF_FRETS_LEAF_FRETS_H

#include "session/app.h"
#include "words/frets_plan.h"

/*
 * The Frets leaf: a row for each string with the notes that buzz and those that ring clean, the
 * bass string first; below them the rows of the frets, each fret in the column of its number, and
 * the fall-away.
 */
enum frets_row { FRETS_ROW_SPOT, FRETS_ROW_CROWN, FRETS_ROW_FALL_AWAY, FRETS_ROWS };

enum { FRETS_BUZZ_COLUMN = 0, FRETS_CLEAN_COLUMN = 1 };

/* What the leaf keeps: its plan, and the note picked on the map. */
struct frets_state {
    struct frets_plan plan;
    int picked; /* the note + 1; 0: the tightest */
};

static inline struct frets_state *frets_state(const struct app *app)
{
    return app->state[LEAF_FRETS];
}

#endif
