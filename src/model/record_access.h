/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_RECORD_ACCESS_H
#define SILLET_MODEL_RECORD_ACCESS_H

#include <stdbool.h>

#include "model/record.h"

/* Readings taken out of a record as numbers, for what computes with them. */

/* A number that may be absent. */
struct entered {
    double value; /* 0 when absent */
    bool given;
    bool unsure; /* outside the usual, or (in a setup) unlike its row: it stands for itself alone */
};

struct entered record_entered(const struct record *record, struct reading_key key);
struct entered record_entered_one(const struct record *record, enum field_id field);
struct entered record_entered_string(const struct record *record, enum field_id field, int string);

/* For fields whose fallback stands in the table, so that there always is a value. */
double record_or_fallback(const struct record *record, enum field_id field);

/* The step of the gauge that a field is read with, or set to; false for none. */
bool record_step(const struct record *record, const struct field *field, double *ret_step);

/* How many strings: what the board says, else the highest [string.N] that is described;
 * 0 when neither tells. */
int record_string_count(const struct record *record);

/* A choice's index, `otherwise` when it is absent. */
int record_choice_or(const struct record *record, struct reading_key key, int otherwise);

#endif
