/* SPDX-License-Identifier: MIT */
#include "session/filing.h"

#include <math.h>

#include "session/again.h"
#include "session/cell_words.h"
#include "session/change.h"
#include "session/held.h"
#include "session/refresh.h"
#include "session/typed_text.h"
#include "words/amount.h"

/* Puts a text under a key unless it has one. */
static enum status put_if_absent(struct turn *turn, struct reading_key key, const char *text)
{
    return record_get(&turn->app->record, &key) ? STATUS_OK : turn_put(turn, key, text, NULL);
}

enum status turn_open_pass(struct turn *turn)
{
    const struct app *app = turn->app;
    const int visit = app->visit, pass = app->pass;
    enum status status = turn_put_time(turn, reading_key_pass(FIELD_PASS_TIME, visit, pass));

    if (status == STATUS_OK && pass == 1)
        status = put_if_absent(turn, reading_key_pass(FIELD_PASS_LABEL, visit, 1), "as found");
    if (status == STATUS_OK && app_nut_method(app) == NUT_HELD_3)
        status = put_if_absent(turn, reading_key_pass(FIELD_NUT_METHOD, visit, pass), "held-3");
    return status;
}

/* Whether a reading of the cell in hand is the first one of the pass in hand. Turns of the rod are
 * logged before their pass begins, so they do not open it. */
static bool opens_pass(const struct app *app)
{
    const struct reading_key key = change_key(app, app_cell(app)->key);

    return field_get(key.field)->section == SECTION_PASS && key.visit == app->visit &&
           key.part == app->pass && key.field != FIELD_ROD_TURN && app_pass_is_empty(app);
}

void turn_mind_turns(struct turn *turn, double turns)
{
    const double most = 0.25;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (fabs(turns) <= most)
        return;
    strbuf_add(&words, "Filed: ");
    amount_add_turns(&words, fabs(turns), false);
    strbuf_add(&words, fabs(turns) > 1 ? " turns" : " turn");
    strbuf_add(&words, " without a reading. A quarter turn at most, then measure.");
    turn_warn(turn, memory);
}

bool turn_take_entry(struct turn *turn)
{
    struct app *app = turn->app;
    const struct leaf_row *row = app_row(app);
    const struct route_cell *cell = app_cell(app);
    const struct field *field = field_get(cell->key.field);
    const struct day today = app_today_typed(app);
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf spelled = STRBUF(memory);
    struct field_fault fault = {.status = STATUS_OK};
    const bool first = opens_pass(app);

    if (!app->entry_view.good) {
        turn_refuse_entry(turn, app->entry_view.words);
        return false;
    }
    if (held_holds(turn))
        return false;
    if (row->before_filing)
        row->before_filing(app);
    turn_open_step(turn);
    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &spelled) != STATUS_OK) {
        turn_refuse_entry(turn, "too long for one cell; add the leaves up first");
        return false;
    }
    if (turn_put(turn, cell->key, memory, &fault) != STATUS_OK) {
        if (fault.status != STATUS_OK)
            turn_refuse_entry(turn, fault.words);
        else
            turn_warn(turn, "Out of memory: the reading was not taken.");
        return false;
    }
    /* A pass without its date is still a pass: the reading counts. */
    if (first && turn_open_pass(turn) != STATUS_OK)
        turn_warn(turn, "Out of memory: the pass has no date.");
    if (row->after_filing)
        row->after_filing(turn, memory);
    if (field->id == FIELD_ROD_TURN)
        turn_mind_turns(turn, app->entry_view.value);
    app_drop_entry(app);
    turn_changed(turn);
    return true;
}

bool turn_take_again(struct turn *turn)
{
    struct app *app = turn->app;

    if (!lineedit_set(&app->entry, again_in_hand(app)->text)) {
        turn_warn(turn, "This text is longer than the entry line; type it.");
        return false;
    }
    app_refresh_entry(app);
    return turn_take_entry(turn);
}

/* The change that goes when the cell is cleared, so that what held before holds again; NULL if that
 * would clear what held before. */
static const struct reading *find_change(const struct app *app)
{
    return app->correcting ? NULL : change_made(app, &app_cell(app)->key);
}

static bool holds_anything(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && (record_get(&app->record, &cell->key) || find_change(app));
}

/* A setback that an earlier pass or visit said: it goes only there, so that they stay as they were.
 */
static bool is_of_earlier(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    return cell && cell->key.field == FIELD_SETBACK && !app->correcting && !find_change(app) &&
           change_applies(app, FIELD_SETBACK);
}

void turn_clear_cell(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);

    char memory[APP_MESSAGE_MAX];
    struct strbuf said = STRBUF(memory);

    if (!holds_anything(app) || !turn_may_change(turn))
        return;
    if (is_of_earlier(app)) {
        turn_warn(turn,
                  "This was read earlier: = (* 0 0 1), then Del takes it out where it was read.");
        return;
    }
    const struct reading *change = find_change(app);
    const struct reading_key key = change ? change->key : cell->key;
    cell_words_add_held(app, cell, ": ", &said);
    strbuf_add(&said, reading_key_is_change(&key) ? " taken out of this visit; * 1 brings it back."
                                                  : " taken out; * 1 brings it back.");
    turn_open_step(turn);
    if (turn_put(turn, key, NULL, NULL) != STATUS_OK) {
        turn_warn(turn, "Out of memory: the reading was left as it is.");
        return;
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE, memory);
}

bool turn_can_clear(const struct app *app)
{
    return app_may_change(app) && holds_anything(app) && !is_of_earlier(app);
}

void turn_add_cleared(const struct app *app, struct strbuf *out)
{
    strbuf_add(out, ": ");
    cell_words_add_held(app, app_cell(app), ", ", out);
}
