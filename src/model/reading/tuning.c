/* SPDX-License-Identifier: MIT */
#include "model/reading/tuning.h"

#include <stddef.h>
#include <string.h>

#include "model/strings/pitch.h"
#include "model/common/same_name.h"

static const char between[] = " \t";

static const struct tuning tunings[] = {
#include "tuning_table.inc"
};

int tuning_count(void)
{
    return (int)(sizeof tunings / sizeof tunings[0]);
}

const struct tuning *tuning_get(int k)
{
    return k >= 0 && k < tuning_count() ? &tunings[k] : NULL;
}

enum status tuning_find(const char *name, const struct tuning **ret_tuning)
{
    for (int k = 0; k < tuning_count(); k++)
        if (same_name(name, tunings[k].name)) {
            *ret_tuning = &tunings[k];
            return STATUS_OK;
        }
    return STATUS_NOT_FOUND;
}

static enum status read_note(const char *text, size_t length, int *ret_semitone)
{
    /* A letter, a sharp or flat of three bytes, an octave. */
    char note[8];

    if (length >= sizeof note)
        return STATUS_SYNTAX;
    memcpy(note, text, length);
    note[length] = '\0';
    return pitch_parse(note, ret_semitone);
}

enum status tuning_read_notes(const char *text, struct string_notes *ret_notes)
{
    struct string_notes notes = {.strings = 0};
    int from_bass[STRINGS_MAX];

    for (text += strspn(text, between); *text; text += strspn(text, between)) {
        const size_t length = strcspn(text, between);

        if (notes.strings == STRINGS_MAX)
            return STATUS_TOO_LONG;
        const enum status status = read_note(text, length, &from_bass[notes.strings]);
        if (status != STATUS_OK)
            return status;
        notes.strings++;
        text += length;
    }
    if (notes.strings == 0)
        return STATUS_ABSENT;
    for (int s = 1; s <= notes.strings; s++)
        notes.semitone[s] = from_bass[notes.strings - s];
    *ret_notes = notes;
    return STATUS_OK;
}

bool tuning_is_for(const struct tuning *tuning, int strings)
{
    struct string_notes notes;

    return tuning_read_notes(tuning->notes, &notes) == STATUS_OK && notes.strings == strings;
}

static bool has_notes(const struct tuning *tuning, const struct string_notes *notes)
{
    struct string_notes own = {.strings = 0};

    return tuning_read_notes(tuning->notes, &own) == STATUS_OK && own.strings == notes->strings &&
           memcmp(own.semitone + 1, notes->semitone + 1,
                  (size_t)notes->strings * sizeof notes->semitone[0]) == 0;
}

const struct tuning *tuning_of_notes(const struct string_notes *notes)
{
    if (notes->strings < 1)
        return NULL;
    for (int k = 0; k < tuning_count(); k++)
        if (has_notes(&tunings[k], notes))
            return &tunings[k];
    return NULL;
}

bool tuning_add_note(const struct tuning *tuning, int string, struct strbuf *out)
{
    struct string_notes notes = {.strings = 0};
    const char *text = tuning->notes + strspn(tuning->notes, between);

    if (tuning_read_notes(tuning->notes, &notes) != STATUS_OK || string < 1 ||
        string > notes.strings)
        return false;
    for (int s = notes.strings; s > string; s--) {
        text += strcspn(text, between);
        text += strspn(text, between);
    }
    strbuf_add_bytes(out, text, strcspn(text, between));
    return true;
}
