/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_RECORD_WALK_H
#define SILLET_MODEL_RECORD_WALK_H

#include <stdbool.h>

#include "model/record.h"

/* Going through what a record holds of its visits, in time order. Numbers without a reading
 * are passed over, so a record with a visit 9999 costs no more than its readings. */

/* The first visit after *visit with any reading; false, *visit untouched, past the last.
 * Begin with 0. */
bool record_next_visit(const struct record *record, int *visit);

/* The first pass after (*visit, *pass) with any reading. Begin with 0, 0. */
bool record_next_pass(const struct record *record, int *visit, int *pass);

#endif
