/* SPDX-License-Identifier: MIT */
#include "session/typed_text.h"

#include <math.h>

#include "model/strings/pitch.h"
#include "model/reading/record_access.h"
#include "model/reading/tuning.h"

/* The string's note in the first tuning that fits the instrument. */
static struct maybe find_usual(const struct app *app, int string)
{
    const struct name_list list = name_list_for(NAMES_OF_TUNINGS, &app->record);
    char name[NAME_LIST_NAME_SIZE];
    const struct tuning *tuning;
    struct string_notes notes;

    if (!name_list_name(&list, 0, name, sizeof name) || tuning_find(name, &tuning) != STATUS_OK ||
        tuning_read_notes(tuning->notes, &notes) != STATUS_OK || string < 1 ||
        string > notes.strings)
        return maybe_absent();
    return maybe_given(notes.semitone[string]);
}

static struct maybe find_near(const struct app *app, const struct reading_key *key)
{
    const struct maybe held = record_entered(&app->record, *key);
    const struct maybe note = record_entered_string(&app->record, FIELD_STRING_NOTE, key->string);

    return held.given ? held : note.given ? note : find_usual(app, key->string);
}

const char *typed_text(const struct app *app, char memory[ENTRY_TEXT_MAX])
{
    struct strbuf whole = strbuf_over(memory, ENTRY_TEXT_MAX);
    const struct route_cell *cell = app_cell(app);

    if (!cell || field_get(cell->key.field)->kind != KIND_NOTE)
        return app->entry.text;
    const struct maybe near = find_near(app, &cell->key);
    if (!near.given ||
        pitch_add_nearest(app->entry.text, (int)lround(near.value), &whole) != STATUS_OK)
        return app->entry.text;
    return memory;
}
