/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_NECK_WOOD_H
#define SILLET_MODEL_NECK_WOOD_H

#include <stdbool.h>

#include "base/maybe.h"
#include "base/status.h"
#include "base/strbuf.h"

/*
 * Woods by name, at 12 % moisture content: means over clear wood, from which one neck can
 * differ by a fifth and more. The rows stand in share/wood.csv.
 * Source: Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), tables 4-3, 4-4
 * (shrinkage), 5-3, 5-5 (modulus, shear), 13-5 (coefficients); M. Chudnoff, Tropical Timbers of
 * the World (1984), for most tropical ones. Each row says in `source` which of its numbers
 * were read, and where, and which are from memory.
 */

/* Across the grain: out from the heart, or along the rings. */
enum wood_grain { WOOD_RADIAL, WOOD_TANGENTIAL, WOOD_GRAIN_COUNT_ };

struct wood {
    const char *name;
    const char *botanical;
    const char *also;         /* what the trade calls it too, ';' between; "" for nothing else */
    struct maybe modulus_mpa; /* along the grain, in bending */
    struct maybe shear_mpa;   /* strength along the grain */
    struct maybe shrinkage_pct[WOOD_GRAIN_COUNT_]; /* green to oven-dry */
    struct maybe coefficient[WOOD_GRAIN_COUNT_];   /* change per % of moisture */
    const char *source;
};

/* How many woods there are; the k-th of them in the order of the table, NULL past it. */
int wood_count(void);
const struct wood *wood_get(int k);

/* Appends another name of a wood, k from 0: the botanical one, then those of the trade. False,
 * nothing appended, past the last. */
bool wood_add_other_name(const struct wood *wood, int k, struct strbuf *out);

/*
 * The wood of that name, botanical name or other name of the trade, ASCII case ignored, blanks
 * around and runs of blanks, hyphens and underscores counted as one blank. STATUS_ABSENT for NULL
 * or a blank name, STATUS_NOT_FOUND.
 */
enum status wood_find(const char *name, const struct wood **ret_wood);

/*
 * Dimensional-change coefficient: the table's, else from the shrinkage. STATUS_ABSENT
 * where the table has neither, STATUS_DOMAIN for a grain that is none.
 */
enum status wood_find_coefficient(const struct wood *wood, enum wood_grain grain,
                                  double *ret_coefficient);

/*
 * Coefficient from a shrinkage S_0 (green to oven-dry, %, above 0, to 100):
 * C = 1/(100 x 30/S_0 - 30 + 10), the fibre saturation point taken as 30 % and the wood
 * as it is at 10 %. STATUS_DOMAIN outside.
 * Source: Wood Handbook, chapter 13, with table 13-5. Sugar maple 9.9 gives 0.00353.
 */
enum status wood_coefficient_from_shrinkage(double shrinkage_pct, double *ret_coefficient);

#endif
