/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_STATE_H
#define SILLET_LEAF_HISTORY_HISTORY_STATE_H

#include "leaf/history/history.h"
#include "session/app.h"

/* What is looked at on the History leaf: one row of one pass. All zero: the relief of the pass in
 * hand. */
struct history_state {
    struct pass_place pass; /* none: the pass in hand */
    enum history_row row;
    struct history_index index; /* of the record as it is, and so is the history */
    struct history history;
};

/* The state that the leaf keeps. */
static inline struct history_state *history_state(const struct app *app)
{
    return app->state[LEAF_HISTORY];
}

/* Makes index and history, when the record may have changed. */
void history_state_plan(struct app *app, struct place place);

/* Where the pass looked at is in the index: the last one if it is not there; -1 if there are none.
 */
int history_state_find(const struct app *app);

/* The row looked at: the first that the instrument has, where it has not that one. */
enum history_row history_state_row(const struct app *app);

/* Looks at another pass, `passes` further on, or at the next row down (1) or up (-1); stops at the
 * ends. */
void history_state_move(struct history_state *state, int at, int passes, int rows);

#endif
