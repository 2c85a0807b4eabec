/* SPDX-License-Identifier: MIT */
#include "app/app.h"
#include "app/app_inside.h"
#include "app/bench_actions.h"
#include "app/explain.h"
#include "app/history_actions.h"
#include "app/strings_actions.h"
#include "app/typing.h"
#include "app/work_actions.h"
#include "app/work_list.h"

static void accept(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->at >= app->route.count) {
        if (app->route.ends_pass)
            turn_begin_pass(turn);
        return;
    }
    if (app_is_emptied(app))
        turn_clear_cell(turn);
    const bool logs_move = !lineedit_is_empty(&app->entry) && work_move_in_hand(app) != MOVE_COUNT_;
    if (lineedit_is_empty(&app->entry) || (turn_may_change(turn) && turn_take_entry(turn)))
        turn_go_to(turn, app->at < route_last(&app->route) ? app->at + 1 : app->at);
    if (logs_move && lineedit_is_empty(&app->entry))
        work_take_next(app);
}

static void open_overlay(struct turn *turn, enum app_overlay overlay)
{
    turn->app->overlay = overlay;
    turn->app->overlay_top = 0;
}

static void leave(struct turn *turn)
{
    turn->effects.quit = true;
}

/* Drops what is typed; with nothing typed, goes back to the shelf it came from. */
static void cancel(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->from_shelf && !app->writing && lineedit_is_empty(&app->entry))
        leave(turn);
    app_drop_entry(app);
    app_refresh_entry(app);
}

/* The shelf lies before the first leaf. */
static void leaf_back(struct turn *turn)
{
    if (turn->app->from_shelf && turn->app->leaf == (enum leaf)0)
        leave(turn);
    else
        turn_leaf(turn, -1);
}

/* What is not in its file may go with the program, so that has to be asked for twice. */
static void quit(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->keeping == KEEPING_FAILED && !app->quit_asked) {
        app->quit_asked = true;
        turn_warn(turn, app->aside ? "Not in its file yet: pressing that again leaves; what is "
                                     "kept aside is saved next time."
                                   : "Not on disk yet: pressing that again leaves, and the "
                                     "readings are lost.");
        return;
    }
    leave(turn);
}

/* What is half typed is neither taken nor lost by going elsewhere; false, with a warning, then. */
static bool may_go(struct turn *turn)
{
    if (lineedit_is_empty(&turn->app->entry))
        return true;
    turn_warn(turn, "Enter takes what is typed, Esc drops it.");
    return false;
}

static void move(struct turn *turn, int at)
{
    if (may_go(turn))
        turn_go_to(turn, at);
}

static void run(struct turn *turn, enum command_id command)
{
    struct app *app = turn->app;

    if (turn_history(turn, command))
        return;
    switch (command) {
    case COMMAND_ACCEPT:
        accept(turn);
        return;
    case COMMAND_BACK:
        if (!typing_erase(turn))
            turn_go_to(turn, app->at - 1);
        return;
    case COMMAND_CANCEL:
        cancel(turn);
        return;
    case COMMAND_CLEAR:
        turn_clear_cell(turn);
        return;
    case COMMAND_UP:
        move(turn, route_move(&app->route, app->at, -1, 0));
        return;
    case COMMAND_DOWN:
        move(turn, route_move(&app->route, app->at, 1, 0));
        return;
    case COMMAND_LEFT:
        move(turn, route_move(&app->route, app->at, 0, -1));
        return;
    case COMMAND_RIGHT:
        move(turn, route_move(&app->route, app->at, 0, 1));
        return;
    case COMMAND_FIRST:
        move(turn, 0);
        return;
    case COMMAND_LAST:
        move(turn, route_last(&app->route));
        return;
    case COMMAND_UNDO:
        turn_undo(turn, true);
        return;
    case COMMAND_REDO:
        turn_undo(turn, false);
        return;
    case COMMAND_PASS:
        turn_begin_pass(turn);
        return;
    case COMMAND_EARLIER:
        if (may_go(turn))
            turn_look_at(turn, -1);
        return;
    case COMMAND_LATER:
        if (may_go(turn))
            turn_look_at(turn, 1);
        return;
    case COMMAND_VISIT:
        turn_begin_visit(turn);
        return;
    case COMMAND_NUDGE_DOWN:
        bench_nudge(turn, -1);
        return;
    case COMMAND_NUDGE_UP:
        bench_nudge(turn, 1);
        return;
    case COMMAND_FROM_BEFORE:
        bench_begin_from_before(turn);
        return;
    case COMMAND_METHOD:
        turn_toggle_method(turn);
        return;
    case COMMAND_TUNING:
    case COMMAND_TUNING_BACK:
    case COMMAND_SET:
    case COMMAND_SET_BACK:
    case COMMAND_SEMITONE_UP:
    case COMMAND_SEMITONE_DOWN:
    case COMMAND_WHAT_IF_TAKE:
    case COMMAND_WHAT_IF_DROP:
        turn_strings(turn, command);
        return;
    case COMMAND_NOTE:
        turn_note(turn, 1);
        return;
    case COMMAND_NOTE_BACK:
        turn_note(turn, -1);
        return;
    case COMMAND_WORK_DONE:
        turn_work_done(turn);
        return;
    case COMMAND_WORK_OWN:
        turn_work_own(turn);
        return;
    case COMMAND_WORK_OUT:
        turn_work_out(turn);
        return;
    case COMMAND_SHEET:
        turn->effects.sheet = true;
        return;
    case COMMAND_UNITS:
        turn_toggle_units(turn);
        return;
    case COMMAND_WHY:
        app->why = app_figure(app);
        open_overlay(turn, OVERLAY_WHY);
        return;
    case COMMAND_WRITE:
        typing_begin(turn);
        return;
    case COMMAND_CHOOSE:
        if (!typing_choose(turn, ' '))
            turn_warn(turn, "Space steps through choices; there are none in this cell.");
        return;
    case COMMAND_EMPTY: /* typing_edit */
        turn_warn(turn, "Nothing is typed that could be emptied.");
        return;
    case COMMAND_LEAF:
        if (may_go(turn))
            turn_leaf(turn, 1);
        return;
    case COMMAND_LEAF_BACK:
        if (may_go(turn))
            leaf_back(turn);
        return;
    case COMMAND_HELP:
        open_overlay(turn, OVERLAY_HELP);
        return;
    case COMMAND_REPAINT:
        turn->effects.repaint = true;
        return;
    case COMMAND_SUSPEND:
        turn->effects.suspend = true;
        return;
    case COMMAND_QUIT:
        quit(turn);
        return;
    case COMMAND_HISTORY_OPEN: /* turn_history */
    case COMMAND_HISTORY_NAME:
    case COMMAND_COUNT_:
        break;
    }
    turn_warn(turn, "That key does nothing here; h shows the keys.");
}

/* An overlay is scrolled or closed; it swallows every other key. */
static void handle_overlay(struct turn *turn, uint32_t key)
{
    enum { PAGE_LINES = 15 }; /* a few less than the smallest screen shows */
    struct app *app = turn->app;

    switch (key) {
    case SILLET_KEY_UP:
    case SILLET_KEY_PAGE_UP:
        app->overlay_top -= key == SILLET_KEY_UP ? 1 : PAGE_LINES;
        if (app->overlay_top < 0)
            app->overlay_top = 0;
        return;
    case SILLET_KEY_DOWN:
    case SILLET_KEY_PAGE_DOWN:
        app->overlay_top += key == SILLET_KEY_DOWN ? 1 : PAGE_LINES;
        return;
    case SILLET_KEY_LEFT:
    case SILLET_KEY_RIGHT:
        if (app->overlay == OVERLAY_WHY)
            app->why = explain_next(app_shown(app),
                                    app->why == FIGURE_COUNT_ ? leaf_figure(app->leaf) : app->why,
                                    app_string(app), key == SILLET_KEY_LEFT ? -1 : 1);
        return;
    default:
        app->overlay = OVERLAY_NONE;
    }
}

static void handle_key(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    app->tone = TONE_NONE;
    if (app->overlay != OVERLAY_NONE) {
        handle_overlay(turn, key);
        return;
    }
    if (typing_choose(turn, key) || typing_edit(turn, key) || typing_add(turn, key)) {
        app->quit_asked = false;
        return;
    }
    const enum command_id command = command_find(key, app->leaf);

    if (command != COMMAND_QUIT)
        app->quit_asked = false;
    run(turn, command);
}

struct app_effects app_handle(struct app *app, const struct event *event,
                              const struct app_clock *clock)
{
    struct turn turn = {.app = app, .clock = clock};

    switch (event->type) {
    case EVENT_KEY:
        handle_key(&turn, event->key);
        break;
    case EVENT_HANGUP:
        leave(&turn);
        break;
    case EVENT_RESUME:
        turn.effects.repaint = true;
        break;
    case EVENT_NONE:
    case EVENT_RESIZE:
        break;
    }
    return turn.effects;
}
