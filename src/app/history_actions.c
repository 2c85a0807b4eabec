/* SPDX-License-Identifier: MIT */
#include "app/history_actions.h"

/* Takes the pass looked at in hand and turns to where it is measured. */
static void open_pass(struct turn *turn, const struct history *history, int at)
{
    struct app *app = turn->app;

    if (at < 0) {
        turn_warn(turn, "No pass is measured yet; the Bench leaf begins one.");
        return;
    }
    app_take_pass(app, history->passes[at].visit, history->passes[at].pass);
    app_take_leaf(app, LEAF_BENCH);
    app_say(app, TONE_NOTE, "This pass is in hand now; > goes to the later ones.");
}

bool turn_history(struct turn *turn, enum command_id command)
{
    struct app *app = turn->app;
    struct history history;

    if (app->leaf != LEAF_HISTORY)
        return false;
    history_make(&app->record, &history);
    const int at = history_state_at(&app->history, &history, app->visit, app->pass);
    switch (command) {
    case COMMAND_HISTORY_OPEN:
        open_pass(turn, &history, at);
        return true;
    case COMMAND_UP:
        history_state_move(&app->history, &history, at, 0, -1);
        return true;
    case COMMAND_DOWN:
        history_state_move(&app->history, &history, at, 0, 1);
        return true;
    case COMMAND_LEFT:
    case COMMAND_EARLIER:
    case COMMAND_BACK:
        history_state_move(&app->history, &history, at, -1, 0);
        return true;
    case COMMAND_RIGHT:
    case COMMAND_LATER:
        history_state_move(&app->history, &history, at, 1, 0);
        return true;
    case COMMAND_FIRST:
        history_state_move(&app->history, &history, at, -at, 0);
        return true;
    case COMMAND_LAST:
        history_state_move(&app->history, &history, at, history.count, 0);
        return true;
    default:
        return false;
    }
}
