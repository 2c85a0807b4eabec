/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_state.h"

/* What is written of a pass while it is named is not in its history. */
void history_state_plan(struct app *app, struct place place)
{
    struct history_state *state = history_state(app);

    (void)place; /* of all passes, not of one */
    if (!pass_place_is_none(app->named))
        return;
    history_index_make(&app->record, &state->index);
    history_make(&app->record, &state->index, &state->history);
}

int history_state_find(const struct app *app)
{
    const struct history_state *state = history_state(app);
    const int at = history_index_find(
        &state->index, pass_place_is_none(state->pass) ? app_pass_in_hand(app) : state->pass);

    return at >= 0 ? at : state->index.count - 1;
}

static int next_row(const struct history *history, int row, int by)
{
    do
        row += by;
    while (row >= 0 && row < HISTORY_ROW_COUNT_ &&
           !history_has_row(history, (enum history_row)row));
    return row;
}

static int shown_row(const struct history_state *state)
{
    return history_has_row(&state->history, state->row) ? (int)state->row
                                                        : next_row(&state->history, -1, 1);
}

enum history_row history_state_row(const struct app *app)
{
    return (enum history_row)shown_row(history_state(app));
}

void history_state_move(struct history_state *state, int at, int passes, int rows)
{
    const struct history_index *index = &state->index;
    const int shown = shown_row(state);
    const int row = rows != 0 ? next_row(&state->history, shown, rows) : shown;
    int to = at + passes;

    if (to > index->count - 1)
        to = index->count - 1;
    if (to < 0)
        to = 0;
    if (index->count > 0)
        state->pass = index->passes[to];
    if (row >= 0 && row < HISTORY_ROW_COUNT_)
        state->row = (enum history_row)row;
}
