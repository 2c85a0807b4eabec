/* SPDX-License-Identifier: MIT */
#include "sound.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

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

const char *sound_figures(struct app *app)
{
    const char *fault = NULL;
    struct derived *fresh = malloc(sizeof *fresh);

    if (!fresh)
        return "no memory";
    derive_pass(place_of(&app->record, app->visit, app->pass), fresh);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *now = &app->now.figures.at[id][s],
                                *want = &fresh->figures.at[id][s];

            if (now->known != want->known ||
                (now->known != KNOWN_ABSENT && !(now->value == want->value)))
                fault = "a figure on show is not the record's";
        }
    free(fresh);
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
