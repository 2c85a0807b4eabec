/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_TUNING_H
#define SILLET_MODEL_READING_TUNING_H

#include <stdbool.h>

#include "base/status.h"
#include "base/strbuf.h"
#include "model/reading/field.h"

/* Tunings by name. The rows stand in share/tunings.csv. */
struct tuning {
    const char *name;
    const char *said;  /* what a tech calls it, among those for the same instrument */
    const char *notes; /* as tuning_read_notes takes them */
    const char *also;  /* other names, ; between */
    const char *source;
};

/* How many there are; the k-th in the order of the table, NULL past it. */
int tuning_count(void);
const struct tuning *tuning_get(int k);

/* By name, as same_name.h compares. STATUS_NOT_FOUND. */
enum status tuning_find(const char *name, const struct tuning **ret_tuning);

/* What the open strings are tuned to, by string; semitones as pitch.h counts them. */
struct string_notes {
    int strings;
    int semitone[STRINGS_MAX + 1]; /* [0] unused */
};

/*
 * Reads the notes of the open strings in the order in which techs say them, from the bass
 * side to the treble side (from string n to string 1), blanks between: "E2 A2 D3 G3 B3 E4".
 * STATUS_ABSENT without a note, STATUS_TOO_LONG over STRINGS_MAX, else as pitch_parse.
 */
enum status tuning_read_notes(const char *text, struct string_notes *ret_notes);

/* Whether a tuning is for that many strings. */
bool tuning_is_for(const struct tuning *tuning, int strings);

/* The first tuning of the table with these notes; NULL when none has them. */
const struct tuning *tuning_of_notes(const struct string_notes *notes);

/* Appends what a tuning calls the note of a string, "Eb2"; false where it has no such string. */
bool tuning_add_note(const struct tuning *tuning, int string, struct strbuf *out);

#endif
