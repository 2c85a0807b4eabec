/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_SAME_INSTRUMENT_H
#define SILLET_MODEL_READING_SAME_INSTRUMENT_H

#include "model/reading/record.h"

/*
 * Whether two records are surely of one instrument: they have its name or its serial number in
 * common, and contradict each other neither in these nor in the day of the first visit.
 */
bool same_instrument(const struct record *a, const struct record *b);

/* By field, the readings that tell. */
void same_instrument_fields(bool ret_wanted[FIELD_COUNT_]);

#endif
