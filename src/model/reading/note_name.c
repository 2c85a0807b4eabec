/* SPDX-License-Identifier: MIT */
#include "model/reading/note_name.h"

#include <math.h>
#include <stddef.h>

#include "model/strings/pitch.h"
#include "model/reading/record_access.h"

/* The notes of all strings; none (`strings` 0) where one is not known. */
static struct string_notes notes_of(const struct record *record)
{
    struct string_notes notes = {.strings = record_string_count(record)};

    for (int s = 1; s <= notes.strings; s++) {
        const struct maybe note = record_entered_string(record, FIELD_STRING_NOTE, s);

        if (!note.given)
            return (struct string_notes){.strings = 0};
        notes.semitone[s] = (int)lround(note.value);
    }
    return notes;
}

const struct tuning *note_name_tuning(const struct record *record)
{
    const struct string_notes notes = notes_of(record);

    return tuning_of_notes(&notes);
}

static const struct reading *good_note(const struct record *record, int string)
{
    const struct reading_key key = reading_key_string(FIELD_STRING_NOTE, string);
    const struct reading *reading = record_get(record, &key);

    return reading && reading->value.state != READING_BAD ? reading : NULL;
}

/* Whether more strings are typed with a flat than with a sharp. */
static bool has_flats(const struct record *record, bool lean_flat)
{
    int sharps_over_flats = 0;

    for (int s = 1; s <= STRINGS_MAX; s++) {
        const struct reading *reading = good_note(record, s);

        sharps_over_flats += reading ? pitch_accidental(reading->text) : 0;
    }
    return sharps_over_flats == 0 ? lean_flat : sharps_over_flats < 0;
}

bool note_name_of(const struct record *record, int string, struct strbuf *out)
{
    const struct reading *reading = good_note(record, string);

    if (!reading)
        return false;
    /* A natural has one name. */
    if (pitch_accidental(reading->text) != 0) {
        const struct tuning *tuning = note_name_tuning(record);

        if (tuning && tuning_add_note(tuning, string, out))
            return true;
    }
    return pitch_tidy(reading->text, out) == STATUS_OK;
}

static void add_note(struct strbuf *out, const struct record *record, int string)
{
    char memory[16];
    struct strbuf note = STRBUF(memory);

    if (note_name_of(record, string, &note))
        strbuf_addf(out, " %s", memory);
}

void note_name_add_string(struct strbuf *out, const struct record *record, int string)
{
    strbuf_addf(out, "%d", string);
    add_note(out, record, string);
}

void note_name_add_read(struct strbuf *out, const struct record *record,
                        const struct outfit *outfit, int string)
{
    const bool alone = outfit->courses < outfit->strings && !outfit_is_course(outfit, string);

    strbuf_addf(out, alone ? "s%d" : "%d", outfit_number(outfit, string));
    add_note(out, record, string);
}

enum status note_name_among(const struct record *record, const struct string_notes *notes,
                            int string, bool lean_flat, struct strbuf *out)
{
    const struct tuning *tuning = tuning_of_notes(notes);

    if (tuning && tuning_add_note(tuning, string, out))
        return STATUS_OK;
    return pitch_spell(notes->semitone[string], has_flats(record, lean_flat), out);
}

enum status note_name_beside(const struct record *record, int string, int semitone, bool lean_flat,
                             struct strbuf *out)
{
    struct string_notes notes = notes_of(record);

    notes.semitone[string] = semitone;
    return note_name_among(record, &notes, string, lean_flat, out);
}
