/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_JOIN_NUMBER_INSIDE_H
#define SILLET_MODEL_READING_JOIN_NUMBER_INSIDE_H

#include "model/reading/join_number.h"
#include "model/reading/join_same.h"

/* Private to join_number.c, which numbers the visits, and join_parts.c. */

/* How far a visit, a pass or a work line is looked for from where it would be. It bounds the time
 * that a record of ten thousand of them takes. */
enum { JOIN_NEAR = 64 };

struct numbering {
    struct join_numbers *numbers;
    const struct record *version[JOIN_VERSIONS_];
    struct record *record; /* of each version, renumbered */
};

/* Numbers the passes or the work lines of the visit with that common number: part_to. */
enum status join_number_parts(struct numbering *numbering, enum section section, int number);

#endif
