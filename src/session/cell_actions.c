/* SPDX-License-Identifier: MIT */
#include "session/cell_actions.h"

#include <stddef.h>

#include "session/again.h"
#include "session/app_place.h"
#include "session/cell_words.h"
#include "session/filing.h"
#include "session/pass_end.h"
#include "session/refresh.h"
#include "session/typing.h"

/* Enter at the pass's end: goes to what is not read yet, and says it, or what to do next. */
static void leave_end(struct turn *turn)
{
    struct app *app = turn->app;
    const int gap = pass_end_find_gap(app);
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (gap < 0) {
        pass_end_add_words(app, &words);
        app_say(app, TONE_NOTE, memory);
        return;
    }
    strbuf_add(&words, "Not read yet: ");
    cell_words_add_name(app, &app->route.cells[gap], &words);
    turn_go_to(turn, gap);
    app_say(app, TONE_NOTE, memory);
}

/* From a cell off the route, on to the next such one in its row; else to the first that is not read
 * yet: the rod was turned, so the pass begins. */
static int find_next(const struct app *app)
{
    const struct route_cell *cell = app_cell(app), *next = cell + 1;

    if (cell->aside && app->at + 1 < app->route.count && next->aside && next->row == cell->row)
        return app->at + 1;
    const int gap = app_cell(app)->aside && app->route.ends_pass ? pass_end_find_gap(app) : -1;

    return gap >= 0 ? gap : route_step(&app->route, app->at, 1);
}

/* Where there is no next cell, the hand at the number pad has to be told: what it types next would
 * replace what was just filed (doubt_look.h). */
static void go_on(struct turn *turn, bool filed)
{
    struct app *app = turn->app;
    const int from = app->at;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    turn_go_to(turn, find_next(app));
    if (app->at != from)
        return;
    app->stayed = filed;
    strbuf_addf(&words, "This is the last cell of %s", leaf_name(app->leaf));
    if (app->leaf + 1 < LEAF_COUNT_)
        strbuf_addf(&words, "; Tab goes on to %s", leaf_name(app->leaf + 1));
    strbuf_add_char(&words, '.');
    if (app->tone == TONE_NONE)
        app_say(app, TONE_NOTE, memory);
}

bool turn_accept_cell(struct turn *turn)
{
    struct app *app = turn->app;
    const bool is_typed = !lineedit_is_empty(&app->entry);

    if (app->at >= app->route.count) {
        if (app->route.ends_pass)
            leave_end(turn);
        return false;
    }
    if (app_is_emptied(app))
        turn_clear_cell(turn);
    if (again_in_hand(app) && !turn_take_again(turn))
        return false;
    if (!lineedit_is_empty(&app->entry) && !(turn_may_change(turn) && turn_take_entry(turn)))
        return false;
    go_on(turn, is_typed);
    return true;
}

void turn_accept(struct turn *turn)
{
    const struct leaf_row *row = app_row(turn->app);

    if (row->accept)
        row->accept(turn);
    else
        (void)turn_accept_cell(turn);
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

/* Drops what is typed; with nothing typed, goes back to the shelf if the profile was opened
 * there. */
void turn_cancel(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->from_shelf && !app->writing && lineedit_is_empty(&app->entry))
        leave(turn);
    app_drop_entry(app);
    app_refresh_entry(app);
}

static void take_leaf_beside(struct turn *turn, int by)
{
    const int leaf = ((int)turn->app->leaf + by + LEAF_COUNT_) % LEAF_COUNT_;

    app_take_leaf(turn->app, (enum leaf)leaf);
}

/* The shelf comes before the first leaf. */
void turn_leaf_back(struct turn *turn)
{
    if (!turn_may_go(turn))
        return;
    if (turn->app->from_shelf && turn->app->leaf == (enum leaf)0)
        leave(turn);
    else
        take_leaf_beside(turn, -1);
}

/* Readings that are not in the file could be lost, so quitting has to be asked for twice. */
void turn_quit(struct turn *turn)
{
    struct app *app = turn->app;

    if (app->keeping == KEEPING_FAILED && !app->quit_asked) {
        app->quit_asked = true;
        turn_warn(turn, app->aside ? "Not in its file yet: press that again to quit; what is "
                                     "kept aside is saved next time."
                                   : "Not on disk yet: press that again to quit; the "
                                     "readings are lost then.");
        return;
    }
    leave(turn);
}

static void move(struct turn *turn, int at)
{
    if (turn_may_go(turn))
        turn_go_to(turn, at);
}

/* From a cell off the route, Backspace goes to the one beside it. */
void turn_back(struct turn *turn)
{
    const struct app *app = turn->app;

    if (typing_erase(turn))
        return;
    turn_go_to(turn, app_cell(app) && app_cell(app)->aside ? route_move(&app->route, app->at, 0, -1)
                                                           : route_step(&app->route, app->at, -1));
}

void turn_move_row(struct turn *turn, int by)
{
    move(turn, route_move(&turn->app->route, turn->app->at, by, 0));
}

void turn_move_column(struct turn *turn, int by)
{
    move(turn, route_move(&turn->app->route, turn->app->at, 0, by));
}

void turn_move_first(struct turn *turn)
{
    struct app *app = turn->app;

    if (!turn_may_go(turn))
        return;
    turn_go_to(turn, 0);
    if (app_cell(app) && app_row(app)->settle)
        app_row(app)->settle(app, false);
}

void turn_move_last(struct turn *turn)
{
    move(turn, route_last(&turn->app->route));
}

void turn_go_to_leaf(struct turn *turn, int leaf)
{
    if (turn_may_go(turn) && (int)turn->app->leaf != leaf)
        app_take_leaf(turn->app, (enum leaf)leaf);
}

void turn_leaf_on(struct turn *turn)
{
    if (turn_may_go(turn))
        take_leaf_beside(turn, 1);
}

void turn_ask_paper(struct turn *turn, int paper)
{
    turn->effects.paper = (enum app_paper)paper;
}

/* The reading is explained before its figure. A move, or a pass looked at, is not a reading. */
void turn_explain(struct turn *turn)
{
    struct app *app = turn->app;
    const struct leaf_row *row = app_row(app);

    app->why = app_figure(app);
    app->why_reading = app_cell(app) && (!row->explains_cell || row->explains_cell(app));
    open_overlay(turn, OVERLAY_WHY);
    app_refresh_entry(app);
}

void turn_help(struct turn *turn)
{
    open_overlay(turn, OVERLAY_HELP);
}

void turn_choose(struct turn *turn)
{
    if (!typing_choose(turn, ' '))
        turn_warn(turn, "Space steps through choices, and this cell has none. Just type.");
}

/* If something is typed, typing_edit handles the key. */
void turn_empty(struct turn *turn)
{
    turn_warn(turn, "Nothing is typed, so there is nothing to empty.");
}

void turn_repaint(struct turn *turn)
{
    turn->effects.repaint = true;
}

void turn_suspend(struct turn *turn)
{
    turn->effects.suspend = true;
}

void turn_toggle_units(struct turn *turn)
{
    struct app *app = turn->app;

    app->metric = !app->metric;
    app->units = app->metric ? shop_units_metric() : shop_units_inch();
    turn->effects.units = true;
    app_refresh_entry(app);
    app_say(app, TONE_NOTE, app->metric ? "Metric gauges." : "Inch gauges.");
}

void turn_add_where_to(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, app->from_shelf ? " to the shelf" : " the program");
}
