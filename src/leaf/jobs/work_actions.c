/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_actions.h"

#include "leaf/jobs/work_entries.h"
#include "leaf/jobs/work_list.h"
#include "model/derive/asked.h"
#include "session/filing.h"
#include "session/refresh.h"

/* Why a move cannot be marked done now. */
static const char *refusal(const struct move *move, const struct move_words *words)
{
    if (move->state == MOVE_UNKNOWN)
        return words->amount[0] && move->needs != NEED_EXPOSURE
                   ? words->amount
                   : "Not known yet: measure first, on the Bench leaf.";
    if (move->state == MOVE_WAITS)
        return words->amount;
    if (move->state == MOVE_GOOD)
        return "That is on target; to log work on it anyway, type what was done.";
    return "Marked done already: measure again (Bench, then p); * z takes the mark out.";
}

/* Asks for the turns at once, while they are known. Later, a nut gap would be typed there by
 * mistake. */
static void ask_turns(struct app *app)
{
    for (int i = 0; i < app->route.count; i++)
        if (app->route.cells[i].key.field == FIELD_ROD_TURN) {
            app->at = i;
            app_refresh_entry(app);
            app_say(app, TONE_NOTE,
                    "Marked done; * 1 takes it back. By how many turns? Enter leaves that open.");
        }
}

/* --- what only the rocker tells --- */

static void say_levelled(struct turn *turn)
{
    struct app *app = turn->app;
    struct move_words words;
    struct work_list list;

    work_list_make(app, &list);
    move_words_make(list.derived, MOVE_FRETS, &app->units, &words);
    turn_open_step(turn);
    if (turn_put(turn, work_key(WORK_AMOUNT, app->visit, list.moves[MOVE_FRETS].done_by),
                 words.found, NULL) != STATUS_OK) {
        turn_warn(turn, "Out of memory: the line still says that nothing was high.");
        return;
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE,
            "Filed as levelled; * 1 takes that back. Hear it again in the next pass.");
}

/* Any other key leaves what does no harm: rocked, and nothing was high. */
static bool answer_found(struct turn *turn, uint32_t key)
{
    turn->app->asked = NULL;
    if (key == '+')
        say_levelled(turn);
    else if (key == SILLET_KEY_ENTER)
        app_say(turn->app, TONE_NOTE,
                "Not high: heard again in the next pass, another fret is looked for.");
    return key == '+' || key == SILLET_KEY_ENTER || key == SILLET_KEY_ESCAPE;
}

static const struct asked was_it_high = {
    .take_key = answer_found, .enter = "not high", .escape = "the same"};

static void ask_found(struct app *app)
{
    app_say(app, TONE_NOTE,
            "Marked done as rocked, nothing high. + if it was high and is levelled.");
    app->asked = &was_it_high;
}

static void put_done(struct turn *turn, const struct move_words *words)
{
    struct app *app = turn->app;
    const int line = record_last_work(&app->record, app->visit) + 1;
    char memory[400];
    struct strbuf amount = STRBUF(memory);

    work_begin(app, line);
    /* What is expected of a levelled fret is not of one that was but rocked. */
    if (words->found[0])
        work_begun_of(app)->proof[0] = '\0';
    work_add_amount(words, true, &amount);
    turn_open_step(turn);
    if (turn_put(turn, work_key(WORK_AMOUNT, app->visit, line), memory, NULL) != STATUS_OK ||
        work_complete_line(turn, line) != STATUS_OK) {
        turn_changed(turn);
        turn_warn(turn, "Out of memory: the work line is not complete; * 1 takes it back.");
        return;
    }
    turn_changed(turn);
    work_take_next_or_own(app);
    app_say(app, TONE_NOTE, "Marked done with its amount and the time; * 1 takes it back.");
    if (work_begun_of(app)->kind == MOVE_ROD)
        ask_turns(app);
    else if (words->found[0])
        ask_found(app);
}

static enum move_kind find_move_to_mark(const struct app *app)
{
    const enum move_kind kind = work_move_in_hand(app);
    struct work_list list;

    if (kind == MOVE_COUNT_ || !app_may_change(app) || work_is_past(app))
        return MOVE_COUNT_;
    work_list_make(app, &list);
    return move_is_open(&list.moves[kind]) ? kind : MOVE_COUNT_;
}

/* On a line of the tech's own, and while rod turns are asked for, the key first takes the next move
 * in hand, to be looked at. */
void work_mark_done(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const enum move_kind kind = cell && cell->aside ? MOVE_COUNT_ : work_move_in_hand(app);
    struct move_words words;
    struct work_list list;

    if (kind == MOVE_COUNT_) {
        turn_warn(turn, work_take_next(app) ? "This move is next; the same key again marks it done."
                        : record_last_work(&app->record, app->visit) < WORKS_MAX
                            ? "No move is due; the last row is for a line of your own."
                            : "A visit cannot hold more work lines.");
        return;
    }
    if (work_is_past(app)) {
        work_refuse_past(turn);
        return;
    }
    work_list_make(app, &list);
    move_words_make(list.derived, kind, &app->units, &words);
    if (!move_is_open(&list.moves[kind]))
        turn_warn(turn, refusal(&list.moves[kind], &words));
    else if (turn_may_change(turn))
        put_done(turn, &words);
}

void work_write_own(struct turn *turn)
{
    const int at = work_find_own(turn->app);

    if (at < 0) {
        turn_warn(turn, "A visit cannot hold more work lines.");
        return;
    }
    turn_go_to(turn, at);
}

static int find_line_in_hand(const struct app *app)
{
    const enum move_kind kind = work_move_in_hand(app);
    const struct route_cell *cell = app_cell(app);
    struct work_list list;

    if (kind == MOVE_COUNT_)
        return cell ? cell->key.part : 0;
    work_list_make(app, &list);
    return list.moves[kind].done_by;
}

void work_take_out(struct turn *turn)
{
    struct app *app = turn->app;
    const int line = find_line_in_hand(app);

    if (!work_line_exists(&app->record, app->visit, line)) {
        turn_warn(turn, "There is no work line here to take out.");
        return;
    }
    if (!turn_may_change(turn))
        return;
    turn_open_step(turn);
    for (int column = 0; column < WORK_COLUMN_COUNT_; column++) {
        const struct reading_key key = work_key((enum work_column)column, app->visit, line);

        if (record_get(&app->record, &key) && turn_put(turn, key, NULL, NULL) != STATUS_OK) {
            turn_changed(turn);
            turn_warn(turn, "Out of memory: a part of the line is left; * 1 brings it back.");
            return;
        }
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE, "Work line taken out; * 1 brings it back.");
}

/* --- the menu --- */

bool work_can_ask_templates(const struct app *app)
{
    struct derived derived;
    struct place asked;

    return asked_for_reset(app_place(app), &asked, &derived);
}

bool work_can_mark_done(const struct app *app)
{
    return find_move_to_mark(app) != MOVE_COUNT_;
}

void work_add_to_mark(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, ": ");
    strbuf_add(out, outfit_move_name(&app->now.setup.outfit, find_move_to_mark(app)));
}

bool work_can_write_own(const struct app *app)
{
    return app_may_change(app) && record_last_work(&app->record, app->visit) < WORKS_MAX;
}

bool work_can_take_out(const struct app *app)
{
    return app_may_change(app) &&
           work_line_exists(&app->record, app->visit, find_line_in_hand(app));
}
