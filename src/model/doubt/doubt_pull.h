/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_DOUBT_PULL_H
#define SILLET_MODEL_DOUBT_DOUBT_PULL_H

#include <stdbool.h>

#include "base/maybe.h"
#include "model/reading/record.h"

/* Whether all strings together pull more than this kind of instrument is built for. One gauge or
 * note that is off may pass alone; the sum shows it. */

/* More than this times the usual pull is in doubt (common practice, no published source): a heavy
 * set a tone up, or strings for another scale. */
#define DOUBT_PULL_FAR 1.3

/*
 * What the strings of the record's kind of instrument pull together with the heaviest usual set,
 * N: the heaviest set of share/sets.csv on the scale of the kind's starting point, in
 * proportion for another number of strings. Absent where the kind or the number of strings is not
 * known, and for kind `other`.
 */
struct maybe doubt_pull_usual(const struct record *record);

/* Whether a total pull is over DOUBT_PULL_FAR times that. */
bool doubt_pull_is_far(const struct record *record, double total_n);

#endif
