/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_WORK_SINCE_H
#define SILLET_MODEL_READING_WORK_SINCE_H

#include <stdint.h>

#include "model/reading/place.h"
#include "model/reading/work_mark.h"

/* Whether work may have changed what a pass read. */

/* A set of moves, a bit for each kind. */
#define MOVE_BIT(kind) (1U << (kind))

/* Whether one of `moves` that reaches a string (work_reach.h; 0: any) was logged after pass `from`
 * was read, up to the visit of `to`, or, with the rod among them, turns of it up to pass `to`. In
 * visits after that of `from` every line counts. */
bool work_since(struct place from, struct place to, unsigned moves, int string);

/* The same of lines of the tech's own, of which nobody knows what they changed. */
bool work_since_own(struct place from, struct place to);

/* Whether one of `moves` that reaches a string may have been done between two passes of a visit: a
 * line without a time may, too, and one in the minute of the first. */
bool work_between(struct place from, struct place to, unsigned moves, int string);

/* The frets that lines between two passes of a visit say were rocked and not found high, bit n for
 * fret n. */
uint64_t work_rocked_between(struct place from, struct place to);

#endif
