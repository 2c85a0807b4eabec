/* SPDX-License-Identifier: MIT */
#include "app/app.h"

#include <string.h>

#include "app/app_inside.h"
#include "app/held.h"
#include "app/leaf_neck.h"
#include "app/leaf_strings.h"
#include "app/question.h"
#include "app/typed_text.h"
#include "app/work_actions.h"
#include "app/work_list.h"
#include "model/note_name.h"
#include "model/pitch.h"
#include "model/record_access.h"

void app_say(struct app *app, enum app_tone tone, const char *message)
{
    struct strbuf text = STRBUF(app->message);

    strbuf_clear(&text);
    strbuf_add(&text, message);
    app->tone = tone;
}

const struct derived *app_shown(const struct app *app)
{
    return app->previewing ? &app->preview : &app->now;
}

const struct route_cell *app_cell(const struct app *app)
{
    return app->at < app->route.count ? &app->route.cells[app->at] : NULL;
}

int app_last_pass(const struct app *app)
{
    const int last = record_last_read_pass(&app->record, app->visit);

    return last > app->pass ? last : app->pass;
}

bool app_pass_is_empty(const struct app *app)
{
    return record_last_read_pass(&app->record, app->visit) < app->pass;
}

struct day app_today(const struct app *app)
{
    struct day day = {.year = 0, .month = 1, .day = 1};

    (void)day_parse(app->today, &day);
    return day;
}

/* What only the leaf in hand shows. */
static void make_plans(struct app *app, const struct record *record)
{
    if (app->leaf == LEAF_PITCH)
        pitch_plan_make(record, app_shown(app), app->visit, app->pass, app_string(app),
                        &app->pitch_plan);
    if (app->leaf == LEAF_STRINGS)
        what_if_derive(&app->what_if, record, app_shown(app));
    if (app->leaf == LEAF_FRETS)
        frets_plan_make(record, app_shown(app), app->visit, app->pass, &app->frets_plan);
}

/* The entry taken on trial, in a copy: whatever fails, the record is as it was. */
static void derive_preview(struct app *app, const struct field *field)
{
    const struct route_cell *cell = app_cell(app);
    char memory[ENTRY_TEXT_MAX];
    struct strbuf spelled = STRBUF(memory);
    struct record trial;

    app->previewing = false;
    const struct day today = app_today(app);
    char typed[ENTRY_TEXT_MAX];

    if (entry_spell(typed_text(app, typed), field, &app->units, &today, &spelled) != STATUS_OK ||
        record_copy(&app->record, &trial) != STATUS_OK)
        return;
    app->previewing = record_put(&trial, &cell->key, memory, false, NULL) == STATUS_OK;
    if (app->previewing) {
        derive_pass(&trial, app->visit, app->pass, &app->preview);
        make_plans(app, &trial);
    }
    record_done(&trial);
}

/* A string's note reads as the tuning calls it: Fb2 is E2. */
static void name_note(struct app *app, const struct route_cell *cell)
{
    if (cell->key.field != FIELD_STRING_NOTE || !app->entry_view.good)
        return;
    struct strbuf words = STRBUF(app->entry_view.words);
    (void)note_name_beside(&app->record, cell->key.string, (int)app->entry_view.value,
                           pitch_accidental(app->entry.text) < 0, &words);
}

/* Notes of frets that the board has: 19 on a board of 18 is a slip, and 35 was 3 and 5. */
static void limit_frets(struct app *app, const struct field *field)
{
    const int frets = app->now.setup.board.frets;

    if (field->kind != KIND_FRETS || !app->entry_view.good || !app->now.setup.has_board ||
        (uint64_t)app->entry_view.value >> frets <= 1)
        return;
    struct strbuf words = STRBUF(app->entry_view.words);
    app->entry_view.good = false;
    strbuf_addf(&words, "this board ends at fret %d; frets are parted as 3 5 or 3+5", frets);
}

static void look_at_entry(struct app *app, const struct field *field)
{
    const struct name_list list = name_list_of_field(field);
    const struct day today = app_today(app);
    char typed[ENTRY_TEXT_MAX];

    entry_look(typed_text(app, typed), field, &app->units, &today, &app->entry_view);
    name_note(app, app_cell(app));
    limit_frets(app, field);
    choice_look(app->entry.text, &list, &app->choice);
    held_look(app);
    if (app->entry_view.good && app->doubt.kind == DOUBT_NONE && field->kind != KIND_TEXT)
        derive_preview(app, field);
}

/* What hangs on the entry: how it reads, and what it would mean. */
void app_refresh_entry(struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    app->previewing = false;
    app->entry_view = (struct entry_view){.empty = true};
    app->doubt = (struct doubt){.kind = DOUBT_NONE};
    app->doubt_words[0] = '\0';
    app->choice = (struct choice){.state = CHOICE_NONE};
    if (app->question.of != NAMES_OF_FIELD)
        question_look(app);
    else if (cell)
        look_at_entry(app, field_get(cell->key.field));
    if (!app->previewing)
        make_plans(app, &app->record);
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        move_words_make(app_shown(app), (enum move_kind)kind, &app->units, &app->moves[kind]);
}

/* What hangs on the record and the pass in hand. */
void app_refresh(struct app *app)
{
    app_lay(app);
    derive_pass(&app->record, app->visit, app->pass, &app->now);
    app->has_before = app->pass > 1;
    if (app->has_before)
        derive_pass(&app->record, app->visit, app->pass - 1, &app->before);
    app_refresh_entry(app);
}

void app_lay(struct app *app)
{
    const struct history_state *history = &app->history;
    const struct leaf_place place = {.record = &app->record,
                                     .strings = record_string_count(&app->record),
                                     .frets =
                                         (int)record_entered_one(&app->record, FIELD_FRETS).value,
                                     .visit = app->visit,
                                     .pass = app->pass,
                                     .named_visit = history->naming ? history->visit : 0,
                                     .named_pass = history->naming ? history->pass : 0};

    leaf_lay(app->leaf, &place, &app->route);
    if (app->at > route_last(&app->route))
        app->at = route_last(&app->route);
}

void app_take_leaf(struct app *app, enum leaf leaf)
{
    app->at_of[app->leaf] = app->at;
    app->history.naming = false;
    app->leaf = leaf;
    app->at = app->at_of[leaf];
    app_lay_leaf(app);
    app_drop_entry(app);
    app_refresh_entry(app);
    work_take_next(app);
}

void app_drop_entry(struct app *app)
{
    lineedit_clear(&app->entry);
    app->writing = app->opened = app->proposed = false;
    app->held = HELD_NO;
}

void app_take_pass(struct app *app, int visit, int pass)
{
    app->visit = visit;
    app->pass = pass;
    app->begun.pass = 0;
    app->fresh = false;
    app->history.visit = 0;
    app->history.naming = false;
    app->at = 0;
    app_drop_entry(app);
    app_refresh(app);
    work_take_next(app);
}

void app_init(struct app *app, struct record *record, bool metric, const struct shop_units *units,
              bool read_only)
{
    int visit = 1, pass = 1;

    *app = (struct app){.record = *record, .metric = metric, .units = *units};
    record_init(record);
    undo_init(&app->undo);
    app->leaf = LEAF_BENCH;
    app->note = -1;
    app->keeping = read_only ? KEEPING_READ_ONLY : KEEPING_AS_FILED;
    if (!record_current_pass(&app->record, &visit, &pass) && record_last_visit(&app->record) > 0)
        visit = record_last_visit(&app->record);
    app_take_pass(app, visit, pass);
}

void app_done(struct app *app)
{
    undo_done(&app->undo);
    record_done(&app->record);
}

void app_kept(struct app *app, enum status status, const struct app_clock *clock,
              const char *message)
{
    struct strbuf at = STRBUF(app->kept_at);
    const bool failed = app->keeping == KEEPING_FAILED;

    app->keeping = status == STATUS_OK ? KEEPING_KEPT : KEEPING_FAILED;
    /* A failure dates from its first try. */
    if (status == STATUS_OK || !failed) {
        strbuf_clear(&at);
        strbuf_add_bytes(&at, clock->time, strlen(clock->time) < 5 ? strlen(clock->time) : 5);
    }
    if (message)
        app_say(app, status == STATUS_OK ? TONE_NOTE : TONE_WARNING, message);
    else if (failed && status == STATUS_OK)
        app_say(app, TONE_NOTE, "On disk now: every reading is kept.");
}

enum nut_method app_nut_method(const struct app *app)
{
    const struct reading_key key = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    double method = NUT_OPEN;

    if (!record_value(&app->record, &key, &method) && app->has_before)
        return app->before.setup.nut_method;
    return (enum nut_method)method;
}

/* What the readings of the string in hand ask for, else what is predicted for it. */
static enum figure_id pitch_figure(const struct app *app)
{
    static const enum figure_id figures[] = {FIGURE_SETBACK_FIT, FIGURE_SETBACK_CHANGE,
                                             FIGURE_SETBACK_PREDICTED};
    double value;

    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        if (figures_get(&app_shown(app)->figures, figures[i], app_string(app), &value))
            return figures[i];
    return leaf_figure(LEAF_PITCH);
}

enum figure_id app_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    if (app->leaf == LEAF_PITCH)
        return pitch_figure(app);
    if (app->leaf == LEAF_FRETS)
        return FIGURE_COUNT_;
    if (app->leaf == LEAF_STRINGS && cell)
        return leaf_strings_figure((enum string_column)cell->column);
    if (app->leaf == LEAF_NECK && cell)
        return leaf_neck_figure(cell->key.field);
    if (app->leaf == LEAF_HISTORY)
        return history_row_figure(app->history.row);
    if (app->leaf == LEAF_WORK)
        return move_figure(work_move_in_hand(app));
    if (app->leaf != LEAF_BENCH)
        return leaf_figure(app->leaf);
    if (!cell)
        return FIGURE_ANGLE;
    switch ((enum board_row)cell->row) {
    case ROW_RELIEF:
        return FIGURE_RELIEF;
    case ROW_GAP:
        return FIGURE_SLOT_CHANGE;
    case ROW_ACTION:
        return FIGURE_SADDLE_CHANGE;
    case ROW_EXPOSURE:
    case ROW_COUNT_:
        break;
    }
    return cell->key.field == FIELD_EXPOSURE_BASS ? FIGURE_EXPOSURE_BASS_AFTER
                                                  : FIGURE_EXPOSURE_TREBLE_AFTER;
}

int app_string(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    const int strings = app->now.setup.board.strings;

    return cell ? cell->string : strings > 0 ? strings : 1;
}

int app_note(const struct app *app)
{
    const struct board *board = &app_shown(app)->setup.board;
    const int string = app_string(app);

    if (string > board->strings)
        return -1;
    return app->note >= 0 && app->note <= board->frets
               ? app->note
               : frets_tightest_note(app_shown(app), string);
}

const struct reading *app_reading_before(const struct app *app, const struct route_cell *cell)
{
    struct reading_key key = cell->key;

    for (key.part = cell->key.part - 1; key.visit > 0; key.visit--) {
        for (; key.part > 0; key.part--) {
            const struct reading *reading = record_get(&app->record, &key);

            if (reading && reading->value.state != READING_BAD)
                return reading;
        }
        key.part = record_last_pass(&app->record, key.visit - 1);
    }
    return NULL;
}
