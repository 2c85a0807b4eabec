/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_LEAF_WORK_H
#define SILLET_LEAF_JOBS_LEAF_WORK_H

#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"

/*
 * The rows of the Work leaf: first the moves in the order of enum move_kind, each with one cell for
 * what was done; then the visit's work lines with a cell for each part; last an empty row for a
 * line of the tech's own. A move's cell is the amount of the line that would be written. Once the
 * rod is marked done, a cell for the turns beside it logs them for the next pass.
 */
/* At most this many lines are laid out, the last ones. */
enum { WORK_LINES_MAX = 150 };

/* The key for the rod's turns, if the rod is marked done for a pass, or for the last pass before it
 * that has readings; false if it is not marked. */
bool work_turns_key(struct place place, struct reading_key *ret_key);

#endif
