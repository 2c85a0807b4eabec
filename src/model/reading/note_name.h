/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_NOTE_NAME_H
#define SILLET_MODEL_READING_NOTE_NAME_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "model/reading/outfit.h"
#include "model/reading/tuning.h"

/*
 * What the open strings' notes are called. The note between D and E is D# or Eb, and the strings
 * together tell which: half a step down is Eb Ab Db Gb Bb Eb. A tuning that the table names is
 * spelled as there; any other as each string was typed.
 */

/* The tuning that a record's strings are in; NULL for none of the table. */
const struct tuning *note_name_tuning(const struct record *record);

/* Appends the name of a string's open note, "Eb2"; false, nothing appended, where the record has
 * none that can be read. */
bool note_name_of(const struct record *record, int string, struct strbuf *out);

/* Appends what a string is called, "6 Eb2", or "6" where its note is not known. */
void note_name_add_string(struct strbuf *out, const struct record *record, int string);

/* The same of what is read there: of a course its own number, "3 G3"; of a string that is read by
 * itself among courses "s5 G3". */
void note_name_add_read(struct strbuf *out, const struct record *record,
                        const struct outfit *outfit, int string);

/*
 * Appends the name that a note would have on that string of the record, the other strings as they
 * are. Where they show neither flats nor sharps, `lean_flat` decides. Fails as pitch_spell.
 */
enum status note_name_beside(const struct record *record, int string, int semitone, bool lean_flat,
                             struct strbuf *out);

/* The same where all strings are tuned anew: the name of the note of one of them. */
enum status note_name_among(const struct record *record, const struct string_notes *notes,
                            int string, bool lean_flat, struct strbuf *out);

#endif
