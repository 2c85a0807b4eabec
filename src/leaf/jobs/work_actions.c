/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_actions.h"

#include <string.h>

#include "leaf/jobs/work_list.h"
#include "model/derive/asked.h"
#include "model/reading/work_amount.h"
#include "model/setup/work_done.h"
#include "session/cell_actions.h"
#include "session/filing.h"
#include "session/refresh.h"

/* The first cell of a move's row; -1 if it is not listed. */
static int find_cell(const struct app *app, int kind)
{
    for (int i = 0; i < app->route.count; i++)
        if (app->route.cells[i].row == kind)
            return i;
    return -1;
}

/* The row for a line of the tech's own; -1 where a visit can hold no more of them. */
static int find_own(const struct app *app)
{
    const struct reading_key key =
        work_key(WORK_KIND, app->visit, record_last_work(&app->record, app->visit) + 1);

    return route_find(&app->route, &key);
}

bool work_take_next(struct app *app)
{
    struct work_list list;

    work_list_make(app, &list);
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_open(&list.moves[kind]) && find_cell(app, kind) >= 0) {
            app->at = find_cell(app, kind);
            app_refresh_entry(app);
            return true;
        }
    return false;
}

/* After a move is logged. Where none is left, what is typed next must not land on a line that is
 * written already. */
static void take_next_or_own(struct app *app)
{
    const int own = find_own(app);

    if (work_take_next(app) || own < 0)
        return;
    app->at = own;
    app_refresh_entry(app);
}

/* --- lines --- */

static struct work_begun *begun_of(const struct app *app)
{
    return app->state[LEAF_WORK];
}

/* Remembers what is known of a line before it is written. */
static void begin_line(struct app *app, int line)
{
    struct work_begun *begun = begun_of(app);
    struct strbuf proof = STRBUF(begun->proof);
    struct work_list list;

    strbuf_clear(&proof);
    begun->fresh = !work_line_exists(&app->record, app->visit, line);
    begun->kind = work_move_in_hand(app);
    if (begun->kind == MOVE_COUNT_)
        return;
    work_list_make(app, &list);
    work_add_proof(app, &list, begun->kind, &proof);
}

/* What was read is a proof of any work; what the plan expects, only of work that went by it. */
static bool is_proof(const struct app *app, int line, const char *proof)
{
    const struct reading_key key = work_key(WORK_AMOUNT, app->visit, line);
    struct work_amount said;

    work_amount_find(record_text(&app->record, &key), &app->now.setup.outfit, &said);
    return proof[0] && (strncmp(proof, "expect ", strlen("expect ")) != 0 ||
                        (said.unit == WORK_AMOUNT_NONE && !said.unread));
}

static enum status complete_line(struct turn *turn, int line)
{
    const struct work_begun *begun = begun_of(turn->app);
    const int visit = turn->app->visit;
    enum status status = STATUS_OK;

    if (!begun->fresh)
        return status;
    if (begun->kind != MOVE_COUNT_)
        status =
            turn_put(turn, work_key(WORK_KIND, visit, line), work_mark_name(begun->kind), NULL);
    if (status == STATUS_OK && begun->kind != MOVE_COUNT_ &&
        is_proof(turn->app, line, begun->proof))
        status = turn_put(turn, work_key(WORK_NOTE, visit, line), begun->proof, NULL);
    if (status == STATUS_OK)
        status = turn_put_time(turn, work_key(WORK_TIME, visit, line));
    return status;
}

/* Whether the entry is for what was done to the rod and can be read as turns, and how it reads as
 * such. False for any other entry. */
static bool reads_as_turns(const struct app *app, struct entry_view *ret_view)
{
    const struct route_cell *cell = app_cell(app);

    if (work_move_in_hand(app) != MOVE_ROD || cell->key.field != FIELD_WORK_AMOUNT)
        return false;
    entry_look(app->entry.text, field_get(FIELD_ROD_TURN), &app->units, NULL, ret_view);
    return ret_view->good;
}

/* Logs such an entry as rod turns, once its line is complete. */
static enum status log_turns(struct turn *turn, struct reading_key key, const char *typed)
{
    const struct app *app = turn->app;
    char memory[ENTRY_TEXT_MAX];
    struct strbuf turns = STRBUF(memory);
    const enum status status =
        entry_spell(typed, field_get(FIELD_ROD_TURN), &app->units, NULL, &turns);
    return status == STATUS_OK ? turn_put(turn, key, memory, NULL) : status;
}

/* --- entries --- */

/* The line that the cell in hand belongs to; 0 for rod turns, which are a reading. */
static int line_of_cell(const struct app *app)
{
    const struct reading_key *key = &app_cell(app)->key;

    return field_get(key->field)->section == SECTION_WORK ? key->part : 0;
}

void work_begin_line(struct app *app)
{
    if (line_of_cell(app) > 0)
        begin_line(app, line_of_cell(app));
}

void work_complete(struct turn *turn, const char *text)
{
    struct app *app = turn->app;
    const int line = line_of_cell(app);
    struct entry_view turns;
    struct reading_key key;

    if (line > 0 && complete_line(turn, line) != STATUS_OK)
        turn_warn(turn, "Out of memory: the work line is not complete.");
    if (!reads_as_turns(app, &turns) || !work_turns_key(app_place(app), &key))
        return;
    if (log_turns(turn, key, text) != STATUS_OK)
        turn_warn(turn, "Out of memory: the rod's turns are not logged.");
    turn_mind_turns(turn, turns.value);
    if (app->tone == TONE_NONE)
        app_say(app, TONE_NOTE, "Marked done, with the turns of the rod; * 1 takes both back.");
}

/* An entry for the rod may be logged as turns too, and is then checked as such. */
void work_look_about(const struct app *app, struct doubt_about *about, enum field_id *field,
                     struct entry_view *view)
{
    const enum move_kind kind = work_move_in_hand(app);

    about->of_move = app_cell(app)->key.field == FIELD_WORK_AMOUNT && kind != MOVE_COUNT_;
    if (!about->of_move)
        return;
    struct work_list list;
    work_list_make(app, &list);
    const struct move *move = &list.moves[kind];
    about->not_due = move->state == MOVE_GOOD || move->state == MOVE_WAITS;
    if (reads_as_turns(app, view))
        *field = FIELD_ROD_TURN;
    else
        about->unread = work_done_is_unread(&list.derived->setup, kind, app->entry.text);
}

static void refuse_past(struct turn *turn)
{
    app_drop_entry(turn->app);
    app_refresh_entry(turn->app);
    turn_warn(turn, "A later pass was read since: moves are marked there; * . 3 goes to it.");
}

/* After a move is logged, the next one is taken in hand. */
void work_accept(struct turn *turn)
{
    const struct app *app = turn->app;
    const bool is_typed = !lineedit_is_empty(&app->entry);
    const bool logs_move =
        work_move_in_hand(app) != MOVE_COUNT_ && (is_typed || app_cell(app)->aside);

    if (is_typed && logs_move && !app_cell(app)->aside && work_is_past(app))
        refuse_past(turn);
    else if (turn_accept_cell(turn) && logs_move)
        take_next_or_own(turn->app);
}

/* --- moves --- */

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

    begin_line(app, line);
    /* What is expected of a levelled fret is not of one that was but rocked. */
    if (words->found[0])
        begun_of(app)->proof[0] = '\0';
    work_add_amount(words, true, &amount);
    turn_open_step(turn);
    if (turn_put(turn, work_key(WORK_AMOUNT, app->visit, line), memory, NULL) != STATUS_OK ||
        complete_line(turn, line) != STATUS_OK) {
        turn_changed(turn);
        turn_warn(turn, "Out of memory: the work line is not complete; * 1 takes it back.");
        return;
    }
    turn_changed(turn);
    take_next_or_own(app);
    app_say(app, TONE_NOTE, "Marked done with its amount and the time; * 1 takes it back.");
    if (begun_of(app)->kind == MOVE_ROD)
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
        refuse_past(turn);
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
    const int at = find_own(turn->app);

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
