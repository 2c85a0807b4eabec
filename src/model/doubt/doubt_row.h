/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_DOUBT_ROW_H
#define SILLET_MODEL_DOUBT_DOUBT_ROW_H

#include "base/maybe.h"
#include "model/doubt/doubt.h"
#include "model/reading/outfit.h"

/* The rule of the row (doubt.h). */

/* DOUBT_BESIDE where a reading does not go with what its pass has read beside it. *ret_beside:
 * whether there is anything beside it to tell by. */
struct doubt doubt_row_find(const struct record *record, const struct reading_key *key,
                            double value, bool *ret_beside);

/*
 * The same for readings that are filed: true where string `string` was read and does not go with
 * two neighbours. `field` is one that the bench reads on each string, `read` by string; any other
 * field has no odd ones. The second takes the readings out of the record, those of `strings`;
 * `outfit` is as of their visit.
 */
bool doubt_is_odd_one(enum field_id field, const struct maybe *read, int strings, int string);
bool doubt_is_unlike_row(const struct record *record, const struct reading_key *key,
                         const struct outfit *outfit, int strings);

#endif
