/* SPDX-License-Identifier: MIT */
#include "sound.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "session/change.h"
#include "session/typed_text.h"

/* --- records --- */

static const char *sound_key(const struct reading_key *key)
{
    char section_memory[64], name_memory[64];
    struct strbuf section = STRBUF(section_memory), name = STRBUF(name_memory);
    struct reading_key parsed;

    reading_key_section(key, &section);
    reading_key_name(key, &name);
    if (section.truncated || name.truncated)
        return "a key has no room";
    if (reading_key_parse(section_memory, name_memory, &parsed) != STATUS_OK ||
        reading_key_compare(&parsed, key) != 0)
        return "a key does not read as it is spelled";
    return NULL;
}

static const char *sound_reading(const struct reading *reading)
{
    const struct field *field = field_get(reading->key.field);
    struct field_value value;

    if (!reading->text)
        return "a reading has no text";
    if (reading->value.state == READING_GONE)
        return reading_key_is_change(&reading->key) && strcmp(reading->text, RECORD_GONE) == 0
                   ? sound_key(&reading->key)
                   : "a reading is gone that is no change";
    const enum status status =
        field_read(field, reading->text, field_file_unit(field), &value, NULL);
    if ((status != STATUS_OK) != (reading->value.state == READING_BAD))
        return "a reading is not as good as its text";
    if (status == STATUS_OK &&
        (value.state != reading->value.state || value.value != reading->value.value))
        return "a reading's value is not what its text says";
    return sound_key(&reading->key);
}

const char *sound_record(const struct record *record)
{
    if (record->count > record->capacity)
        return "more readings than room";
    for (size_t i = 0; i < record->count; i++) {
        const char *fault = sound_reading(&record->readings[i]);

        if (fault)
            return fault;
        if (i > 0 &&
            reading_key_compare(&record->readings[i - 1].key, &record->readings[i].key) >= 0)
            return "a record is not sorted";
    }
    return NULL;
}

/* --- sessions --- */

static const char *sound_line(const struct lineedit *line)
{
    return line->length <= LINEEDIT_MAX && strlen(line->text) == line->length
               ? NULL
               : "a line's length is wrong";
}

static const char *sound_place(const struct app *app)
{
    if (app->leaf < 0 || app->leaf >= LEAF_COUNT_)
        return "no such leaf";
    if (app->route.count < 0 || app->route.count > ROUTE_MAX)
        return "a route of no length";
    if (app->at < 0 || app->at > app->route.count)
        return "the cell in hand is not on the route";
    if (app->visit < 1 || app->visit > VISITS_MAX || app->pass < 1 || app->pass > PASSES_MAX)
        return "no such pass";
    return NULL;
}

static const char *sound_entry(const struct app *app)
{
    const struct lineedit *entry = &app->entry;
    const char *fault = sound_line(entry);

    if (fault)
        return fault;
    if (!app_cell(app) && !lineedit_is_empty(entry))
        return "an entry without a cell";
    if (app->entry_view.empty != lineedit_is_empty(entry))
        return "the entry is not understood as it stands";
    if (app->previewing && !(app->entry_view.good && app_cell(app)))
        return "a preview of nothing";
    return NULL;
}

static const char *sound_words(const struct app *app)
{
    if (app->overlay > OVERLAY_MENU || app->overlay_top < 0)
        return "no such overlay";
    if (!memchr(app->message, '\0', sizeof app->message))
        return "the message has no end";
    if (app->tone != TONE_NONE && !app->message[0])
        return "a tone without words";
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (app_shown(app)->moves.move[kind].state > MOVE_DUE)
            return "a move in no state";
    return NULL;
}

const char *sound_app(const struct app *app)
{
    const char *fault = sound_place(app);

    if (!fault)
        fault = sound_entry(app);
    if (!fault)
        fault = sound_words(app);
    if (!fault && app->undo.done > app->undo.count)
        fault = "more changes in force than there are";
    return fault;
}

static bool is_same_number(double a, double b)
{
    return !(a < b || a > b) && isnan(a) == isnan(b);
}

static const char *compare_figures(const struct figures *now, const struct figures *want)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *a = &now->at[id][s], *b = &want->at[id][s];

            if (a->known != b->known ||
                (a->known != KNOWN_ABSENT &&
                 !(is_same_number(a->value, b->value) && is_same_number(a->u, b->u))))
                return "a figure on show is not the record's";
        }
    return NULL;
}

static bool is_same_amount(const struct move_amount *a, const struct move_amount *b)
{
    return a->known == b->known && a->due == b->due && is_same_number(a->value, b->value) &&
           is_same_number(a->u, b->u);
}

static bool is_same_move(const struct move *a, const struct move *b)
{
    for (int s = 0; s <= STRINGS_MAX; s++)
        if (!is_same_amount(&a->string[s], &b->string[s]))
            return false;
    return a->state == b->state && a->needs == b->needs && a->waits == b->waits &&
           a->done_by == b->done_by && is_same_amount(&a->amount, &b->amount) &&
           a->turns.given == b->turns.given && is_same_number(a->turns.value, b->turns.value);
}

static const char *compare_moves(const struct move_set *now, const struct move_set *want)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (!is_same_move(&now->move[kind], &want->move[kind]))
            return "a move on show is not the record's";
    for (int n = 0; n <= FRETS_MAX; n++)
        if (!is_same_amount(&now->frets.fret[n], &want->frets.fret[n]))
            return "work on a fret on show is not the record's";
    return NULL;
}

static const char *compare_findings(const struct findings *now, const struct findings *want)
{
    bool same = now->count == want->count;

    for (int i = 0; same && i < now->count; i++)
        same = now->list[i].id == want->list[i].id && now->list[i].number == want->list[i].number;
    return same ? NULL : "a finding on show is not the record's";
}

static const char *compare_derived(const struct derived *now, const struct derived *want)
{
    const char *fault = compare_figures(&now->figures, &want->figures);

    if (!fault)
        fault = compare_moves(&now->moves, &want->moves);
    if (!fault)
        fault = compare_findings(&now->findings, &want->findings);
    for (int s = 1; !fault && s <= now->setup.board.strings; s++)
        if (!is_same_number(now->touch.mm[s], want->touch.mm[s]) ||
            now->clearance[s].has_high != want->clearance[s].has_high)
            fault = "the touch on show is not the record's";
    return fault;
}

/* Against all results derived anew from this record, to the same depth. What is due is the same to
 * any depth. */
static const char *sound_derived(const struct app *app, const struct record *record,
                                 const struct derived *now)
{
    const struct place place = place_of(record, app->visit, app->pass);
    const struct maybe kind = record_entered_one(record, FIELD_KIND);
    struct derived *fresh = malloc(sizeof *fresh);

    if (!fresh)
        return "no memory";
    const struct rod_prior *prior =
        kind.given && kind.value < ROD_KINDS_MAX ? &app->priors.of[(int)kind.value] : NULL;
    derive_pass_among(place, prior, now->depth, fresh);
    if (now->has_predicted_u)
        derive_predicted_u(place, fresh);
    const char *fault = compare_derived(now, fresh);
    derive_pass_among(place, prior, DERIVE_FIGURES, fresh);
    if (!fault)
        fault = compare_moves(&now->moves, &fresh->moves);
    free(fresh);
    return fault;
}

/* Files the entry in a copy of the record, as Enter would. */
static bool file_entry(const struct app *app, struct record *copy)
{
    const struct route_cell *cell = app_cell(app);
    const struct reading_key method = reading_key_pass(FIELD_NUT_METHOD, app->visit, app->pass);
    const struct reading *made = change_made(app, &cell->key);
    const struct reading_key key = made ? made->key : change_key(app, cell->key);
    const struct day today = app_today_typed(app);
    char memory[ENTRY_TEXT_MAX], typed[ENTRY_TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    if (app_pass_is_empty(app) && app_nut_method(app) != NUT_OPEN &&
        record_put(copy, &method, "held-3", false, NULL) != STATUS_OK)
        return false;
    return entry_spell(typed_text(app, typed), field_get(cell->key.field), &app->units, &today,
                       &text) == STATUS_OK &&
           record_put(copy, &key, memory, false, NULL) == STATUS_OK;
}

const char *sound_figures(struct app *app)
{
    const char *fault = sound_derived(app, &app->record, &app->now);
    struct record copy;

    if (fault || !app->previewing)
        return fault;
    if (record_copy(&app->record, &copy) != STATUS_OK)
        return "no memory";
    fault = file_entry(app, &copy) ? sound_derived(app, &copy, &app->preview)
                                   : "a preview of what cannot be filed";
    record_done(&copy);
    return fault;
}

static const char *replay(struct app *app, size_t done)
{
    struct undo_step step;

    while (undo_back(&app->undo, &app->record, &step) == STATUS_OK)
        ;
    if (app->undo.done != 0)
        return "undo does not reach the beginning";
    while (app->undo.done < done)
        if (undo_again(&app->undo, &app->record, &step) != STATUS_OK)
            return "redo does not come back to where it was";
    return app->undo.done == done ? NULL : "redo goes past where it was";
}

const char *sound_undo(struct app *app)
{
    struct record before;

    if (record_copy(&app->record, &before) != STATUS_OK)
        return "no memory";
    const char *fault = replay(app, app->undo.done);
    if (!fault && !record_equal(&app->record, &before))
        fault = "undo and redo make another record";
    record_done(&before);
    return fault;
}

/* --- the shelf --- */

const char *sound_shelf(const struct shelf_list *list)
{
    if (list->found_count > list->count || list->count > list->capacity)
        return "more found than there are";
    if (list->found_count ? list->at >= list->found_count : list->at != 0)
        return "the one in hand is not on the shelf";
    for (size_t i = 0; i < list->found_count; i++)
        if (list->found[i] < list->items || list->found[i] >= list->items + list->count)
            return "found what is not there";
    if (list->mode < 0 || list->mode >= SHELF_ANY)
        return "no such mode";
    if (list->preset < 0 ||
        (list->starts.built_in_count && list->preset >= list->starts.built_in_count))
        return "no such starting point";
    if (list->starts.found_count && list->starts.at >= list->starts.found_count)
        return "the starting point in hand is not listed";
    if (list->earlier_at > 0 && list->earlier_at >= list->earlier_count)
        return "no such earlier state";
    if (!memchr(list->message, '\0', sizeof list->message) ||
        !memchr(list->chosen, '\0', sizeof list->chosen) ||
        !memchr(list->target, '\0', sizeof list->target))
        return "a text has no end";
    const char *fault = sound_line(&list->filter);
    return fault ? fault : sound_line(&list->name);
}

/* --- screens --- */

/* Most cells hold a plain character; the tests look at them by the million. */
static bool is_plain(const struct cell *cell, bool last)
{
    if (cell->rune < ' ' || cell->rune > '~' || cell->role >= ROLE_COUNT_)
        return false;
    for (int i = 0; i < FRAME_MARKS; i++)
        if (cell->marks[i])
            return false;
    return last || cell[1].rune != 0;
}

static const char *sound_cell(const struct cell *cell, bool first, bool last, bool utf8)
{
    if (is_plain(cell, last))
        return NULL;
    const int width = cell->rune ? utf8_width(cell->rune) : 0;
    const bool half_follows = !last && cell[1].rune == 0;

    if (cell->role >= ROLE_COUNT_)
        return "no such role";
    if ((width == 2) != half_follows || (first && cell->rune == 0))
        return "half a wide character";
    if (cell->rune && utf8_unsafe(cell->rune))
        return "a character that steers the terminal";
    if (cell->rune && width < 1)
        return "a cell without a column";
    for (int i = 0; i < FRAME_MARKS; i++)
        if (cell->marks[i] && (utf8_unsafe(cell->marks[i]) || utf8_width(cell->marks[i]) != 0))
            return "a mark that is none";
    if (!utf8 && (cell->rune >= 0x7F || cell->marks[0]))
        return "not ASCII";
    return NULL;
}

const char *sound_frame(const struct frame *frame, bool utf8)
{
    for (int row = 0; row < frame->rows; row++)
        for (int column = 0; column < frame->columns; column++) {
            const char *fault = sound_cell(&frame->cells[row * frame->columns + column],
                                           column == 0, column + 1 == frame->columns, utf8);
            if (fault)
                return fault;
        }
    if (frame->cursor_row < -1 || frame->cursor_row >= frame->rows || frame->cursor_column < -1 ||
        frame->cursor_column >= frame->columns)
        return "the cursor is outside";
    return NULL;
}
