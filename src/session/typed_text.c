/* SPDX-License-Identifier: MIT */
#include "session/typed_text.h"

#include <math.h>

#include "model/pitch.h"
#include "model/record_access.h"
#include "model/tuning.h"

/* The string as the first tuning that fits the instrument has it. */
static bool find_usual(const struct app *app, int string, double *ret_semitone)
{
    const struct name_list list = name_list_for(NAMES_OF_TUNINGS, &app->record);
    char name[NAME_LIST_NAME_SIZE];
    const struct tuning *tuning;
    struct string_notes notes;

    if (!name_list_name(&list, 0, name, sizeof name) || tuning_find(name, &tuning) != STATUS_OK ||
        tuning_read_notes(tuning->notes, &notes) != STATUS_OK || string < 1 ||
        string > notes.strings)
        return false;
    *ret_semitone = notes.semitone[string];
    return true;
}

static bool find_near(const struct app *app, double *ret_semitone)
{
    const struct reading_key *key = &app_cell(app)->key;
    const struct reading_key note = reading_key_string(FIELD_STRING_NOTE, key->string);

    return record_value(&app->record, key, ret_semitone) ||
           record_value(&app->record, &note, ret_semitone) ||
           find_usual(app, key->string, ret_semitone);
}

const char *typed_text(const struct app *app, char memory[ENTRY_TEXT_MAX])
{
    struct strbuf whole = strbuf_over(memory, ENTRY_TEXT_MAX);
    const struct route_cell *cell = app_cell(app);
    double near;

    if (!cell || field_get(cell->key.field)->kind != KIND_NOTE || !find_near(app, &near) ||
        pitch_add_nearest(app->entry.text, (int)lround(near), &whole) != STATUS_OK)
        return app->entry.text;
    return memory;
}
