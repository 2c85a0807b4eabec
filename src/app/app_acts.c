/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "app/app_inside.h"
#include "app/bench_actions.h"
#include "app/history_actions.h"
#include "app/question.h"
#include "app/strings_actions.h"
#include "app/take_out.h"
#include "app/typing.h"
#include "app/work_actions.h"
#include "app/work_list.h"

static void accept(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->at >= app->route.count) {
        if (app->route.ends_pass)
            app_say(app, TONE_NOTE,
                    "All cells done. p begins the next pass; on the number pad, * and 4.");
        return;
    }
    if (app_is_emptied(app))
        turn_clear_cell(turn);
    const bool logs_move = work_move_in_hand(app) != MOVE_COUNT_ &&
                           (!lineedit_is_empty(&app->entry) || app_cell(app)->aside);
    if (!lineedit_is_empty(&app->entry) && !(turn_may_change(turn) && turn_take_entry(turn)))
        return;
    turn_go_to(turn, route_step(&app->route, app->at, 1));
    if (logs_move)
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

/* What is half typed is neither taken nor lost by going elsewhere; false, with a warning, then. */
static bool may_go(struct turn *turn)
{
    if (lineedit_is_empty(&turn->app->entry))
        return true;
    turn_warn(turn, turn->app->doubt.kind != DOUBT_NONE
                        ? "Held: Enter asks again before it files it, Esc drops it."
                        : "Enter takes what is typed, Esc drops it.");
    return false;
}

/* The shelf lies before the first leaf. */
static void leaf_back(struct turn *turn)
{
    if (!may_go(turn))
        return;
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

static void move(struct turn *turn, int at)
{
    if (may_go(turn))
        turn_go_to(turn, at);
}

/* From a cell off the way to the one that it stands beside. */
static void back(struct turn *turn)
{
    const struct app *app = turn->app;

    if (typing_erase(turn))
        return;
    turn_go_to(turn, app_cell(app) && app_cell(app)->aside ? route_move(&app->route, app->at, 0, -1)
                                                           : route_step(&app->route, app->at, -1));
}

static void move_by_row(struct turn *turn, int by)
{
    move(turn, route_move(&turn->app->route, turn->app->at, by, 0));
}

static void move_by_column(struct turn *turn, int by)
{
    move(turn, route_move(&turn->app->route, turn->app->at, 0, by));
}

static void move_to_first(struct turn *turn)
{
    move(turn, 0);
}

static void move_to_last(struct turn *turn)
{
    move(turn, route_last(&turn->app->route));
}

static void undo(struct turn *turn)
{
    turn_undo(turn, true);
}

static void redo(struct turn *turn)
{
    turn_undo(turn, false);
}

static void look_at(struct turn *turn, int by)
{
    if (may_go(turn))
        turn_look_at(turn, by);
}

static void go_to_leaf(struct turn *turn, int leaf)
{
    if (may_go(turn) && (int)turn->app->leaf != leaf)
        app_take_leaf(turn->app, (enum leaf)leaf);
}

static void leaf_on(struct turn *turn)
{
    if (may_go(turn))
        turn_leaf(turn, 1);
}

static void ask_sheet(struct turn *turn)
{
    turn->effects.sheet = true;
}

/* A reading comes before what follows from it; a move and a pass looked at are no readings. */
static void why(struct turn *turn)
{
    struct app *app = turn->app;

    app->why = app_figure(app);
    app->why_reading = app_cell(app) && app->leaf != LEAF_HISTORY &&
                       (app->leaf != LEAF_WORK || work_move_in_hand(app) == MOVE_COUNT_);
    open_overlay(turn, OVERLAY_WHY);
}

static void help(struct turn *turn)
{
    open_overlay(turn, OVERLAY_HELP);
}

static void choose(struct turn *turn)
{
    if (!typing_choose(turn, ' '))
        turn_warn(turn,
                  "Space steps through choices; there are none in this cell. To write, type.");
}

/* With something typed, typing_edit has it. */
static void empty(struct turn *turn)
{
    turn_warn(turn, "Nothing is typed that could be emptied.");
}

static void repaint(struct turn *turn)
{
    turn->effects.repaint = true;
}

static void suspend(struct turn *turn)
{
    turn->effects.suspend = true;
}

/* One of the two; those of the history leaf alone are in turn_history. */
struct act {
    void (*plain)(struct turn *turn);
    void (*by)(struct turn *turn, int by);
    int step; /* for `by` */
};

static const struct act acts[COMMAND_COUNT_] = {
    [COMMAND_ACCEPT] = {.plain = accept},
    [COMMAND_BACK] = {.plain = back},
    [COMMAND_CANCEL] = {.plain = cancel},
    [COMMAND_CLEAR] = {.plain = turn_clear_cell},
    [COMMAND_UP] = {.by = move_by_row, .step = -1},
    [COMMAND_DOWN] = {.by = move_by_row, .step = 1},
    [COMMAND_LEFT] = {.by = move_by_column, .step = -1},
    [COMMAND_RIGHT] = {.by = move_by_column, .step = 1},
    [COMMAND_FIRST] = {.plain = move_to_first},
    [COMMAND_LAST] = {.plain = move_to_last},
    [COMMAND_UNDO] = {.plain = undo},
    [COMMAND_REDO] = {.plain = redo},
    [COMMAND_PASS] = {.plain = turn_begin_pass},
    [COMMAND_EARLIER] = {.by = look_at, .step = -1},
    [COMMAND_LATER] = {.by = look_at, .step = 1},
    [COMMAND_VISIT] = {.plain = turn_begin_visit},
    [COMMAND_NUDGE_DOWN] = {.by = bench_nudge, .step = -1},
    [COMMAND_NUDGE_UP] = {.by = bench_nudge, .step = 1},
    [COMMAND_FROM_BEFORE] = {.plain = bench_begin_from_before},
    [COMMAND_METHOD] = {.plain = turn_toggle_method},
    [COMMAND_TUNING] = {.plain = strings_step_tuning},
    [COMMAND_SET] = {.plain = strings_step_set},
    [COMMAND_TUNING_NAMED] = {.plain = question_ask_tuning},
    [COMMAND_SET_NAMED] = {.plain = question_ask_set},
    [COMMAND_SEMITONE_UP] = {.by = strings_step_semitone, .step = 1},
    [COMMAND_SEMITONE_DOWN] = {.by = strings_step_semitone, .step = -1},
    [COMMAND_WHAT_IF_TAKE] = {.plain = strings_take_what_if},
    [COMMAND_WHAT_IF_DROP] = {.plain = strings_drop_what_if},
    [COMMAND_NOTE] = {.by = turn_note, .step = 1},
    [COMMAND_NOTE_BACK] = {.by = turn_note, .step = -1},
    [COMMAND_WORK_DONE] = {.plain = turn_work_done},
    [COMMAND_WORK_OWN] = {.plain = turn_work_own},
    [COMMAND_WORK_OUT] = {.plain = turn_work_out},
    [COMMAND_PASS_OUT] = {.plain = turn_pass_out},
    [COMMAND_VISIT_OUT] = {.plain = turn_visit_out},
    [COMMAND_INTAKE_OUT] = {.plain = turn_visit_out},
    [COMMAND_SHEET] = {.plain = ask_sheet},
    [COMMAND_UNITS] = {.plain = turn_toggle_units},
    [COMMAND_WHY] = {.plain = why},
    [COMMAND_EDIT] = {.plain = typing_open},
    [COMMAND_MENU] = {.plain = turn_open_menu},
#define LEAF(id, ...) [COMMAND_GO_##id] = {.by = go_to_leaf, .step = LEAF_##id},
#include "app/leaf_table.h"
#undef LEAF
    [COMMAND_CHOOSE] = {.plain = choose},
    [COMMAND_EMPTY] = {.plain = empty},
    [COMMAND_LEAF] = {.plain = leaf_on},
    [COMMAND_LEAF_BACK] = {.plain = leaf_back},
    [COMMAND_HELP] = {.plain = help},
    [COMMAND_REPAINT] = {.plain = repaint},
    [COMMAND_SUSPEND] = {.plain = suspend},
    [COMMAND_QUIT] = {.plain = quit},
};

void turn_run(struct turn *turn, enum command_id command)
{
    const struct act *act = command < COMMAND_COUNT_ ? &acts[command] : NULL;

    if (turn_history(turn, command))
        return;
    if (act && act->plain)
        act->plain(turn);
    else if (act && act->by)
        act->by(turn, act->step);
    else
        turn_warn(turn, "That key does nothing here; * shows what can be done.");
}
