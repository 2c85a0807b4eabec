/* SPDX-License-Identifier: MIT */
#include "app/history_actions.h"

#include "app/typing.h"

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

static void take_cells(struct app *app, bool naming)
{
    app->history.naming = naming;
    app->at = 0;
    app_lay(app);
    app_drop_entry(app);
    app_refresh_entry(app);
}

static void begin_naming(struct turn *turn, const struct history *history, int at)
{
    if (at < 0) {
        turn_warn(turn, "No pass is measured yet; the Bench leaf begins one.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    /* From here on it is this pass that is looked at, whichever is in hand. */
    history_state_move(&turn->app->history, history, at, 0, 0);
    take_cells(turn->app, true);
}

/* Takes the label and goes on to the note, or takes that; what was not changed is left. */
static void take_text(struct turn *turn)
{
    struct app *app = turn->app;
    const int at = app->at;

    if (app_is_emptied(app))
        turn_clear_cell(turn);
    else if (app_is_typing(app) && !lineedit_is_empty(&app->entry) && !turn_take_entry(turn))
        return;
    if (at + 1 >= app->route.count) {
        take_cells(app, false);
        return;
    }
    turn_go_to(turn, at + 1);
}

/* The cells of a label and a note, while they are there, take what all cells take, but for their
 * end: behind the note, and at Esc, the passes are looked at again. */
static bool name_pass(struct turn *turn, enum command_id command)
{
    switch (command) {
    case COMMAND_HISTORY_OPEN:
        take_text(turn);
        return true;
    case COMMAND_CANCEL:
        take_cells(turn->app, false);
        return true;
    default:
        return false;
    }
}

bool turn_history(struct turn *turn, enum command_id command)
{
    struct app *app = turn->app;
    struct history history;

    if (app->leaf != LEAF_HISTORY)
        return false;
    if (app->history.naming)
        return name_pass(turn, command);
    history_make(&app->record, &history);
    const int at = history_state_at(&app->history, &history, app->visit, app->pass);
    switch (command) {
    case COMMAND_HISTORY_OPEN:
        open_pass(turn, &history, at);
        return true;
    case COMMAND_HISTORY_NAME:
        begin_naming(turn, &history, at);
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
