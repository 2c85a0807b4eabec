/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_WORK_LEAF_WORK_H
#define SILLET_LEAF_WORK_LEAF_WORK_H

#include "model/reading/work_line.h"
#include "model/reading/work_mark.h"

/*
 * The job list's rows: first the moves in the order of enum move_kind, each with one cell for
 * what was done of it; then the visit's work lines with a cell for each part; last the room
 * for a line of one's own. A move's cell is the amount of the line that would be written. Beside
 * the rod's, once it is marked done, stands a cell for the turns that the next pass follows.
 */
/* So many lines are laid out, the last ones. */
enum { WORK_LINES_MAX = 150 };

/* Where the turns of a rod stand that is marked done by the readings of a pass, or of the last one
 * read before it; false while it is not marked. */
bool work_turns_key(struct place place, struct reading_key *ret_key);

#endif
