/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_RECORD_ACCESS_H
#define SILLET_MODEL_READING_RECORD_ACCESS_H

#include "base/maybe.h"
#include "model/reading/record.h"

/* Readings taken out of a record as numbers, for what computes with them. */

/* What was entered; absent when nothing was, or a text that is refused. */
struct maybe record_entered(const struct record *record, struct reading_key key);
struct maybe record_entered_one(const struct record *record, enum field_id field);
struct maybe record_entered_string(const struct record *record, enum field_id field, int string);

/* The same, with the field's fallback where nothing was entered. */
struct maybe record_entered_or_fallback(const struct record *record, struct reading_key key);

/* For fields whose fallback stands in the table, so that there always is a value. */
double record_or_fallback(const struct record *record, enum field_id field);

/* The step of the gauge that a field is read with, or set to; absent for none. */
struct maybe record_step(const struct record *record, const struct field *field);

/* How many strings: what the board says, else the highest [string.N] that is described
 * in the visit that the record answers as of; 0 when neither tells. */
int record_string_count(const struct record *record);

/* The kind of instrument as field_table.h spells it; false, `name` "", where none was entered. */
enum { KIND_NAME_SIZE = 24 };
bool record_kind(const struct record *record, char name[KIND_NAME_SIZE]);

/* A text, "" where there is none. */
const char *record_text_or_empty(const struct record *record, struct reading_key key);

/* A choice's index, `otherwise` when it is absent. */
int record_choice_or(const struct record *record, struct reading_key key, int otherwise);

#endif
