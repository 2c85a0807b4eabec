/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_STATE_H
#define SILLET_LEAF_HISTORY_HISTORY_STATE_H

#include "leaf/history/history.h"
#include "session/app.h"

/* What is looked at on the History leaf: one row of one pass. All zero: the relief of the pass in
 * hand. */
struct history_state {
    int visit, pass; /* 0: the pass in hand */
    enum history_row row;
};

/* The state that the leaf keeps. */
static inline struct history_state *history_state(const struct app *app)
{
    return app->state[LEAF_HISTORY];
}

/* The index of the pass looked at; `visit` and `pass` are those in hand. The last pass if it is not
 * there; -1 in an empty history. */
int history_state_at(const struct history_state *state, const struct history *history, int visit,
                     int pass);

/* Looks at another pass or row, `passes` and `rows` further on; stops at the ends. */
void history_state_move(struct history_state *state, const struct history *history, int at,
                        int passes, int rows);

#endif
