/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_PLACE_H
#define SILLET_MODEL_READING_PLACE_H

#include <stdbool.h>

#include "base/maybe.h"
#include "model/reading/record.h"

/* A pass of a record: whatever is computed from readings is computed at one. Its record answers as
 * of it, and is valid until the record that it is of changes. */
struct place {
    struct record record;
    int visit, pass; /* 1..; pass 0 is before the first, and nothing is read there */
};

/* With visit 0 its record answers as the one given does. */
struct place place_of(const struct record *record, int visit, int pass);

/* Where the record stands: the last pass that was read, of the last visit that has one. Visit and
 * pass 0 when none has. */
struct place place_current(const struct record *record);

/* On to the first pass after it with any reading, in time order; false, *place untouched, past the
 * last. Passes without a reading are skipped, so a record with a visit 9999 costs no more than its
 * readings. From pass 0 it goes to the visit's first, from 0, 0 to the record's. */
bool place_next(struct place *place);

/* Back to the last pass before it with any reading; false, *place untouched, before the first. */
bool place_before(struct place *place);

bool place_is_after(struct place place, struct place other);

/* The keys of its readings. */
struct reading_key place_key(struct place place, enum field_id field);
struct reading_key place_key_at(struct place place, enum field_id field, int string, int fret);

/* What was read there, as record_entered has it. */
struct maybe place_read(struct place place, enum field_id field);
struct maybe place_read_at(struct place place, enum field_id field, int string, int fret);

/* Whether there is any such reading of a string, at whatever fret; string 0 for those of the neck.
 * Quicker than to ask for each fret, of which most passes have none. */
bool place_reads_any(struct place place, enum field_id field, int string);

#endif
