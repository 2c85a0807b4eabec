/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_WORK_REACH_H
#define SILLET_MODEL_READING_WORK_REACH_H

#include <stdint.h>

#include "model/reading/place.h"

/*
 * Which strings a work line was about. Slots, saddles and contacts that were worked on one by one
 * are named in it ("string 6 -.008", "file +-.001 in; string 6 -.010"), and what is read of the
 * others is as it was. Any other line is about all of them: a rod, a shim under the nut, a bridge
 * whose inner strings follow its sides, and one that names none.
 */

/* Whether it may have changed what is read of a string; of string 0, of anything at all, as any
 * work may but a rocked fret that was not high. A string that is read with its course is reached
 * where one of the course is. */
bool work_reaches(struct place place, int line, int string);

/* The frets, or marks, that a line says were rocked and not found high, bit n for fret n; none
 * where it says that anything was worked on. */
uint64_t work_rocked(struct place place, int line);

#endif
