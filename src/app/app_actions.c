/* SPDX-License-Identifier: MIT */
#include "app/app_inside.h"

#include <string.h>

#include "app/app.h"
#include "app/cell_words.h"
#include "app/held.h"
#include "app/typed_text.h"
#include "app/work_actions.h"
#include "app/work_list.h"
#include "base/utf8.h"

void turn_warn(struct turn *turn, const char *message)
{
    app_say(turn->app, TONE_WARNING, message);
    turn->app->warned = true;
}

bool turn_may_change(struct turn *turn)
{
    if (turn->app->keeping != KEEPING_READ_ONLY)
        return true;
    turn_warn(turn, "This profile is open for reading only; nothing was changed.");
    return false;
}

void turn_go_to(struct turn *turn, int at)
{
    turn->app->at = at < 0 ? 0 : at;
    app_drop_entry(turn->app);
    app_refresh_entry(turn->app);
}

void turn_open_step(struct turn *turn)
{
    if (!turn->step_is_open)
        undo_open_step(&turn->app->undo, (int)turn->app->leaf);
}

enum status turn_put(struct turn *turn, struct reading_key key, const char *text,
                     struct field_fault *ret_fault)
{
    return undo_put(&turn->app->undo, &turn->app->record, &key, text, ret_fault);
}

enum status turn_move(struct turn *turn, struct reading_key key, const char *text)
{
    return undo_move(&turn->app->undo, &turn->app->record, &key, text);
}

/* Work that goes on after the day of its visit brings its own date along. */
enum status turn_put_time(struct turn *turn, struct reading_key key)
{
    struct app *app = turn->app;
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, app->visit);
    enum status status = STATUS_OK;
    char memory[32];
    struct strbuf time = STRBUF(memory);

    if (!record_get(&app->record, &date))
        status = turn_put(turn, date, turn->clock->date, NULL);
    if (status != STATUS_OK || record_get(&app->record, &key))
        return status;
    if (strcmp(record_text(&app->record, &date), turn->clock->date) != 0)
        strbuf_addf(&time, "%sT", turn->clock->date);
    strbuf_add(&time, turn->clock->time);
    return turn_put(turn, key, memory, NULL);
}

/* Puts a text under a key that has none yet. */
static enum status put_if_absent(struct turn *turn, struct reading_key key, const char *text)
{
    return record_get(&turn->app->record, &key) ? STATUS_OK : turn_put(turn, key, text, NULL);
}

/* The first reading of a pass dates it, and its visit, and says how its gaps are read. */
static enum status open_pass(struct turn *turn)
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

void turn_changed(struct turn *turn)
{
    turn->app->begun.pass = 0;
    turn->app->fresh = false;
    app_refresh(turn->app);
    turn->effects.save = true;
}

void turn_refuse_entry(struct turn *turn, const char *why)
{
    enum { QUOTED_COLUMNS = 20 };
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    const char *text = app->entry.text;
    const size_t fits = utf8_clip(text, QUOTED_COLUMNS);

    strbuf_add_char(&words, '"');
    strbuf_add_bytes(&words, text, fits);
    strbuf_add(&words, text[fits] ? "...\": " : "\": ");
    strbuf_add(&words, why);
    turn_warn(turn, memory);
    if (app->question.of == NAMES_OF_FIELD &&
        field_get(app_cell(app)->key.field)->kind == KIND_TEXT)
        return;
    app_drop_entry(app);
    app_refresh_entry(app);
}

/* Takes the entry into the cell in hand; false, with a message, when it cannot be. */
bool turn_take_entry(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);
    const struct field *field = field_get(cell->key.field);
    const struct day today = app_today(app);
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf spelled = STRBUF(memory);
    struct field_fault fault = {.status = STATUS_OK};
    const bool first = field->section == SECTION_PASS && cell->key.visit == app->visit &&
                       cell->key.part == app->pass && cell->key.field != FIELD_ROD_TURN &&
                       app_pass_is_empty(app);
    const int line = field->section == SECTION_WORK ? cell->key.part : 0;
    struct work_begun begun = {.fresh = false};
    struct entry_view turns;

    if (!app->entry_view.good) {
        turn_refuse_entry(turn, app->entry_view.words);
        return false;
    }
    if (held_holds(turn))
        return false;
    if (line > 0)
        work_begin_line(app, line, &begun);
    turn_open_step(turn);
    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &spelled) != STATUS_OK) {
        turn_refuse_entry(turn, "more than one cell keeps; add the leaves up first");
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
    if (first && open_pass(turn) != STATUS_OK)
        turn_warn(turn, "Out of memory: the pass has no date.");
    if (line > 0 && work_complete_line(turn, line, &begun) != STATUS_OK)
        turn_warn(turn, "Out of memory: the work line is not complete.");
    const bool turned = work_reads_as_turns(app, &turns);
    if (turned && work_log_turns(turn, memory) != STATUS_OK)
        turn_warn(turn, "Out of memory: the rod's turns are not logged.");
    app_drop_entry(app);
    turn_changed(turn);
    if (turned && app->tone == TONE_NONE)
        app_say(app, TONE_NOTE, "Marked done, with the turns of the rod; * 1 takes both back.");
    return true;
}

void turn_begin_pass(struct turn *turn)
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
        turn_warn(turn, "A visit holds no more passes; begin a new visit.");
        return;
    }
    app_take_pass(app, app->visit, app->pass + 1);
    app->fresh = true;
    struct strbuf text = STRBUF(memory);
    strbuf_add(&text, "Next pass; ( ) should be read ");
    app_say(app, TONE_NOTE,
            app_add_expected_after(app, &text)
                ? memory
                : "Next pass: a reset changes all, so measure everything anew.");
}

void turn_begin_visit(struct turn *turn)
{
    struct app *app = turn->app;
    const int last = record_last_visit(&app->record);

    if (!turn_may_change(turn))
        return;
    if (app->visit > last || last == 0) {
        turn_warn(turn, "This visit has no reading yet.");
        return;
    }
    if (last >= VISITS_MAX) {
        turn_warn(turn, "The profile holds no more visits.");
        return;
    }
    app_take_pass(app, last + 1, 1);
    app->fresh = true;
    app_say(app, TONE_NOTE, "New visit: its date is set with the first reading.");
}

void turn_clear_cell(struct turn *turn)
{
    struct app *app = turn->app;
    const struct route_cell *cell = app_cell(app);

    char memory[APP_MESSAGE_MAX];
    struct strbuf said = STRBUF(memory);

    if (!cell || !record_get(&app->record, &cell->key) || !turn_may_change(turn))
        return;
    cell_words_add_held(app, cell, ": ", &said);
    strbuf_add(&said, " taken out; * 1 brings it back.");
    turn_open_step(turn);
    if (turn_put(turn, cell->key, NULL, NULL) != STATUS_OK) {
        turn_warn(turn, "Out of memory: the reading was left as it is.");
        return;
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE, memory);
}

void turn_toggle_method(struct turn *turn)
{
    struct app *app = turn->app;
    const struct reading_key key = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    const bool held = app_nut_method(app) == NUT_HELD_3, first = app_pass_is_empty(app);

    if (!turn_may_change(turn))
        return;
    turn_open_step(turn);
    if (turn_put(turn, key, held ? "open" : "held-3", NULL) != STATUS_OK ||
        (first && open_pass(turn) != STATUS_OK)) {
        turn_warn(turn, "Out of memory: not all was changed.");
        return;
    }
    turn_changed(turn);
    app_say(app, TONE_NOTE,
            held ? "Nut gaps are read with the string open."
                 : "Nut gaps are read with the string held on fret 3.");
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

bool app_pass_beside(const struct app *app, int by, int *ret_visit, int *ret_pass)
{
    int visit = app->visit, pass = app->pass + by;

    if (by < 0 && pass < 1) {
        do
            visit--;
        while (visit > 0 && record_last_read_pass(&app->record, visit) == 0);
        pass = visit > 0 ? record_last_read_pass(&app->record, visit) : 0;
    } else if (by > 0 && pass > record_last_read_pass(&app->record, visit)) {
        const int last = record_last_visit(&app->record);
        do
            visit++;
        while (visit <= last && record_last_read_pass(&app->record, visit) == 0);
        pass = 1;
        if (visit > last)
            pass = 0;
    }
    *ret_visit = visit;
    *ret_pass = pass;
    return pass >= 1;
}

/* Where there is no such pass, nothing happens. */
void turn_look_at(struct turn *turn, int by)
{
    int visit, pass;

    if (app_pass_beside(turn->app, by, &visit, &pass))
        app_take_pass(turn->app, visit, pass);
    else
        turn_warn(turn, by < 0 ? "There is no earlier pass." : "There is no later pass.");
}

void turn_leaf(struct turn *turn, int by)
{
    const int leaf = ((int)turn->app->leaf + by + LEAF_COUNT_) % LEAF_COUNT_;

    app_take_leaf(turn->app, (enum leaf)leaf);
}

/* From the note on show; past the first and the last stands the tightest again. */
void turn_note(struct turn *turn, int by)
{
    struct app *app = turn->app;
    const int note = app_note(app) + by;

    app->note = note <= app->now.setup.board.frets ? note : -1;
}
