/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_state.h"

int history_state_at(const struct history_state *state, const struct history *history, int visit,
                     int pass)
{
    const int at = state->visit > 0 ? history_find(history, state->visit, state->pass)
                                    : history_find(history, visit, pass);

    return at >= 0 ? at : history->count - 1;
}

void history_state_move(struct history_state *state, const struct history *history, int at,
                        int passes, int rows)
{
    const int row = (int)state->row + rows;
    int to = at + passes;

    if (to > history->count - 1)
        to = history->count - 1;
    if (to < 0)
        to = 0;
    if (history->count > 0) {
        state->visit = history->passes[to].visit;
        state->pass = history->passes[to].pass;
    }
    if (row >= 0 && row < HISTORY_ROW_COUNT_)
        state->row = (enum history_row)row;
}
