/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_entries.h"

#include <string.h>

#include "leaf/jobs/work_list.h"
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

int work_find_own(const struct app *app)
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

void work_take_next_or_own(struct app *app)
{
    const int own = work_find_own(app);

    if (work_take_next(app) || own < 0)
        return;
    app->at = own;
    app_refresh_entry(app);
}

/* --- lines --- */

struct work_begun *work_begun_of(const struct app *app)
{
    return app->state[LEAF_WORK];
}

void work_begin(struct app *app, int line)
{
    struct work_begun *begun = work_begun_of(app);
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

enum status work_complete_line(struct turn *turn, int line)
{
    const struct work_begun *begun = work_begun_of(turn->app);
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
        work_begin(app, line_of_cell(app));
}

void work_complete(struct turn *turn, const char *text)
{
    struct app *app = turn->app;
    const int line = line_of_cell(app);
    struct entry_view turns;
    struct reading_key key;

    if (line > 0 && work_complete_line(turn, line) != STATUS_OK)
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

void work_refuse_past(struct turn *turn)
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
        work_refuse_past(turn);
    else if (turn_accept_cell(turn) && logs_move)
        work_take_next_or_own(turn->app);
}
