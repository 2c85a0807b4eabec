/* SPDX-License-Identifier: MIT */
#include "leaf/bench/bench_actions.h"

#include <stddef.h>

#include "leaf/bench/expected.h"
#include "model/figure/bench_row.h"
#include "model/reading/shop_round.h"
#include "model/reading/work_since.h"
#include "session/again.h"
#include "session/app_place.h"
#include "session/change.h"
#include "session/filing.h"
#include "session/refresh.h"

/* The target nearer to the string in hand: only the outer two are entered. */
static bool target_in_hand(const struct app *app, struct reading_key *ret_key)
{
    const struct route_cell *cell = app_cell(app);
    const struct bench_row *row = cell ? bench_row_in(&app->now.setup.outfit, cell->row) : NULL;

    if (!row || row->goal == GOAL_NONE || cell->key.field == row->aside)
        return false;
    const bool treble = 2 * cell->string <= app->now.setup.board.strings;
    *ret_key = reading_key_one(row->target[treble ? END_TREBLE : END_BASS]);
    return true;
}

bool bench_can_nudge(const struct app *app)
{
    struct reading_key key;

    return app_may_change(app) && target_in_hand(app, &key) &&
           record_entered_or_fallback(&app->record, key).given;
}

void bench_nudge(struct turn *turn, int by)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);
    struct reading_key key;

    if (!target_in_hand(app, &key) || !turn_may_change(turn))
        return;
    const struct maybe mm = record_entered_or_fallback(&app->record, key);
    if (!mm.given) {
        turn_warn(turn, "There is no target here yet: enter one on the Intake leaf.");
        return;
    }
    shop_round_add_next(field_get(key.field), &app->units, mm.value, by, &text);
    turn_open_step(turn);
    if (turn_put(turn, key, memory, NULL) != STATUS_OK) {
        turn_warn(turn, "The target cannot be moved further.");
        return;
    }
    turn_changed(turn);
    char said_memory[APP_MESSAGE_MAX];
    struct strbuf said = STRBUF(said_memory);
    strbuf_add(&said, field_get(key.field)->label);
    strbuf_add(&said, ": ");
    strbuf_add(&said, memory);
    change_add_words(app, &key, &said);
    app_say(app, TONE_NOTE, said_memory);
}

void bench_begin_from_before(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const struct reading *before = cell ? app_reading_before(app, cell) : NULL;
    char memory[ENTRY_TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    if (!before) {
        turn_warn(turn, "No earlier pass has this reading.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    strbuf_add(&text, before->text);
    app_drop_entry(app);
    if (!lineedit_set(&app->entry, memory))
        return;
    app_refresh_entry(app);
    app_say(app, TONE_NOTE, "From the pass before, not measured yet: Enter takes it as read.");
}

bool bench_has_before(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && app_may_change(app) && app_reading_before(app, cell);
}

/* --- a row as it was --- */

/* The first cell of the row in hand, from one on, whose last value is offered; -1 for none. */
static int find_in_row(const struct app *app, int from)
{
    const struct route_cell *cell = app_cell(app);

    for (int i = from; cell && i < app->route.count; i++)
        if (app->route.cells[i].row == cell->row && again_find(app, &app->route.cells[i]))
            return i;
    return -1;
}

/* Why the row may not be taken as a whole; NULL if it may. */
static const char *why_not(const struct app *app)
{
    const int at = find_in_row(app, 0);
    struct place place = app_place(app);

    if (at < 0)
        return "There is no last value in this row that still stands: read it.";
    if (app->route.cells[at].key.field == FIELD_RELIEF)
        return "The relief is filed by itself: Enter, if it still reads that.";
    while (place.pass > 0 && !place_read(place, FIELD_RELIEF).given)
        place.pass--;
    if (place.pass == 0)
        return "Read the relief first: it tells whether the neck has moved.";
    for (int i = at; i >= 0; i = find_in_row(app, i + 1)) {
        const struct reading *last = again_find(app, &app->route.cells[i]);

        if (work_since_own(again_place(app, last), app_place(app)))
            return "Work of your own was logged since: read each cell, or Enter each as it was.";
    }
    return NULL;
}

bool bench_can_take_row(const struct app *app)
{
    return app_may_change(app) && !why_not(app);
}

/* Files what can be filed without a question; returns the first cell that cannot, -1 for none. */
static int take_row(struct turn *turn, int *ret_filed)
{
    struct app *app = turn->app;
    const int first = app->at;
    int left = -1;

    for (int i = find_in_row(app, 0); i >= 0; i = find_in_row(app, i + 1)) {
        turn_go_to(turn, i);
        if (turn_take_again(turn)) {
            turn->joins_step = true;
            ++*ret_filed;
        } else if (left < 0) {
            left = i;
        }
        turn_go_to(turn, first);
    }
    return left;
}

/* The stop behind the row in hand. */
static int find_behind(const struct app *app)
{
    int last = app->at;

    for (int i = app->at; i < app->route.count; i++)
        if (app->route.cells[i].row == app_cell(app)->row)
            last = i;
    return route_step(&app->route, last, 1);
}

void bench_take_row(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);
    int filed = 0;

    if (!turn_may_go(turn) || !turn_may_change(turn))
        return;
    const char *why = why_not(app);
    if (why) {
        turn_warn(turn, why);
        return;
    }
    const int left = take_row(turn, &filed);
    turn_go_to(turn, left >= 0 ? left : find_behind(app));
    strbuf_add_count(&text, (size_t)filed, "reading", "readings");
    strbuf_add(&text, " filed as they were");
    strbuf_add(&text, left >= 0 ? "; this one is unusual: look again." : "; u takes them back.");
    app_say(app, left >= 0 ? TONE_WARNING : TONE_NOTE, memory);
}

/* --- passes --- */

/* Whether a cell is not offered again as it was. */
static bool any_expected(const struct app *app)
{
    for (int i = 0; i < app->route.count; i++)
        if (!app->route.cells[i].aside && !again_find(app, &app->route.cells[i]))
            return true;
    return false;
}

void bench_begin_pass(struct turn *turn)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];

    if (app->pass < record_last_read_pass(&app->record, app->visit)) {
        app_take_pass(app, app->visit, app->pass + 1);
        return;
    }
    if (app_pass_is_empty(app)) {
        turn_warn(turn, "This pass has no reading yet; measure before the next one.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    if (app->pass >= PASSES_MAX) {
        turn_warn(turn, "A visit cannot hold more passes; begin a new visit.");
        return;
    }
    app_take_pass(app, app->visit, app->pass + 1);
    app->fresh = true;
    struct strbuf text = STRBUF(memory);
    strbuf_add(&text, "Next pass; ( ) is expected ");
    if (!any_expected(app))
        app_say(app, TONE_NOTE,
                "Next pass; [ ] was read before, and nothing is known to change it.");
    else if (bench_add_expected_after(app, &text))
        app_say(app, TONE_NOTE, memory);
    else
        app_say(app, TONE_NOTE, "Next pass: a reset changes everything, so measure it all again.");
}

void bench_toggle_method(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading_key key = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    const bool held = app_nut_method(app) == NUT_HELD_3, first = app_pass_is_empty(app);

    if (!turn_may_change(turn))
        return;
    turn_open_step(turn);
    if (turn_put(turn, key, held ? "open" : "held-3", NULL) != STATUS_OK ||
        (first && turn_open_pass(turn) != STATUS_OK)) {
        turn_warn(turn, "Out of memory: not all was changed.");
        return;
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE,
            held ? "Nut gaps are read with the string open."
                 : "Nut gaps are read with the string held on fret 3.");
}

bool bench_can_begin_pass(const struct app *app)
{
    return app->pass < record_last_read_pass(&app->record, app->visit) ||
           (app_may_change(app) && !app_pass_is_empty(app) && app->pass < PASSES_MAX);
}
