/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_actions.h"

#include "leaf/history/history_state.h"
#include "model/reading/place.h"
#include "session/app_place.h"
#include "session/filing.h"
#include "session/refresh.h"

/* Makes the history and finds the pass looked at; -1 if it is empty. */
static int find_looked_at(const struct app *app, struct history *ret_history)
{
    history_make(&app->record, ret_history);
    return history_state_at(history_state(app), ret_history, app->visit, app->pass);
}

/* --- looking --- */

static void look(struct app *app, int passes, int rows)
{
    struct history history;
    const int at = find_looked_at(app, &history);

    history_state_move(history_state(app), &history, at, passes, rows);
}

void history_look_pass(struct turn *turn, int by)
{
    look(turn->app, by, 0);
}

void history_look_row(struct turn *turn, int by)
{
    look(turn->app, 0, by);
}

static bool has_pass_beside(const struct app *app, int by)
{
    struct history history;
    const int at = find_looked_at(app, &history) + by;

    return app->named.visit == 0 && at >= 0 && at < history.count;
}

bool history_has_earlier(const struct app *app)
{
    return has_pass_beside(app, -1);
}

bool history_has_later(const struct app *app)
{
    return has_pass_beside(app, 1);
}

/* --- opening --- */

bool history_has_pass(const struct app *app)
{
    struct place first = place_of(&app->record, 0, 0);

    return app->named.visit == 0 && place_next(&first);
}

static void warn_of_none(struct turn *turn)
{
    turn_warn(turn, "No pass is measured yet; the Bench leaf begins one.");
}

void history_open(struct turn *turn)
{
    struct app *app = turn->app;
    struct history history;
    const int at = find_looked_at(app, &history);

    if (at < 0) {
        warn_of_none(turn);
        return;
    }
    app_take_pass(app, history.passes[at].visit, history.passes[at].pass);
    app_take_leaf(app, LEAF_BENCH);
    app_say(app, TONE_NOTE, "This is the current pass now; > goes to the later ones.");
}

/* --- naming --- */

static void take_cells(struct app *app)
{
    app->at = 0;
    app_lay(app);
    app_drop_entry(app);
    app_refresh_entry(app);
}

static void end_naming(struct app *app)
{
    app->asked = NULL;
    app->named.visit = 0;
    take_cells(app);
}

/* Files the label and goes on to the note, or files the note and ends. A text that was not changed
 * stays as it is. */
static void take_text(struct turn *turn)
{
    struct app *app = turn->app;
    const int at = app->at;

    if (app_is_emptied(app))
        turn_clear_cell(turn);
    else if (app_is_typing(app) && !lineedit_is_empty(&app->entry) && !turn_take_entry(turn))
        return;
    if (at + 1 >= app->route.count)
        end_naming(app);
    else
        turn_go_to(turn, at + 1);
}

/* The cells of label and note take keys as any cell does, except for Enter and Esc. */
static bool take_key(struct turn *turn, uint32_t key)
{
    if (turn->app->held != HELD_NO)
        return false;
    if (key == SILLET_KEY_ENTER)
        take_text(turn);
    else if (key == SILLET_KEY_ESCAPE)
        end_naming(turn->app);
    return key == SILLET_KEY_ENTER || key == SILLET_KEY_ESCAPE;
}

static const struct asked naming = {.take_key = take_key, .enter = "next"};

bool history_can_name(const struct app *app)
{
    return app_may_change(app) && history_has_pass(app);
}

void history_name(struct turn *turn)
{
    struct app *app = turn->app;
    struct history history;
    const int at = find_looked_at(app, &history);

    if (at < 0) {
        warn_of_none(turn);
        return;
    }
    if (!turn_may_change(turn))
        return;
    /* From here on this pass is looked at, even if it is not the one in hand. */
    history_state_move(history_state(app), &history, at, 0, 0);
    app->asked = &naming;
    app->named =
        (struct pass_place){.visit = history.passes[at].visit, .pass = history.passes[at].pass};
    take_cells(app);
}
