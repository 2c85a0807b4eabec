/* SPDX-License-Identifier: MIT */
#include "leaf/history/history_actions.h"

#include "leaf/history/history_state.h"
#include "model/reading/place.h"
#include "session/app_place.h"
#include "session/filing.h"
#include "session/pass_actions.h"
#include "session/refresh.h"

/* --- looking --- */

static void look(struct app *app, int passes, int rows)
{
    history_state_move(history_state(app), history_state_find(app), passes, rows);
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
    const int at = history_state_find(app) + by;

    return pass_place_is_none(app->named) && at >= 0 && at < history_state(app)->index.count;
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

bool history_has_any(const struct app *app)
{
    return place_current(&app->record).pass > 0;
}

bool history_has_pass(const struct app *app)
{
    return pass_place_is_none(app->named) && history_has_any(app);
}

/* False, with a warning, where no pass is measured yet. */
static bool find_or_warn(struct turn *turn, struct pass_place *ret_place)
{
    const int at = history_state_find(turn->app);

    if (at >= 0)
        *ret_place = history_state(turn->app)->index.passes[at];
    else
        turn_warn(turn, "No pass is measured yet; the Bench leaf begins one.");
    return at >= 0;
}

void history_open(struct turn *turn)
{
    struct app *app = turn->app;
    struct pass_place looked_at;

    if (!find_or_warn(turn, &looked_at))
        return;
    app_take_pass(app, looked_at.visit, looked_at.pass);
    app_take_leaf(app, LEAF_BENCH);
    app_say(app, TONE_NOTE,
            turn_has_later(app) ? "This is the current pass now; > goes to the later ones."
                                : "This is the current pass now.");
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
    app->named = pass_place_none();
    take_cells(app);
}

/* Files a text and goes on to the next one; the last one ends it. A text that was not changed
 * stays as it is. */
static void take_text(struct turn *turn)
{
    struct app *app = turn->app;
    const int at = app->at;

    if (app_is_emptied(app))
        turn_clear_cell(turn);
    else if (!lineedit_is_empty(&app->entry) && !turn_take_entry(turn))
        return;
    if (at + 1 >= app->route.count)
        end_naming(app);
    else
        turn_go_to(turn, at + 1);
}

/* These cells take keys as any cell does, except for Enter and Esc. */
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
    struct pass_place looked_at;

    if (!find_or_warn(turn, &looked_at) || !turn_may_change(turn))
        return;
    /* From here on this pass is looked at, even if it is not the one in hand. */
    history_state(app)->pass = looked_at;
    app->asked = &naming;
    app->named = looked_at;
    take_cells(app);
}
