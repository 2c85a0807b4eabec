/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_WORK_MARK_H
#define SILLET_MODEL_READING_WORK_MARK_H

#include <stdbool.h>

#include "model/reading/place.h"

/* The moves, and the work lines that mark them done. */

enum move_kind {
#define MOVE(id, ...) MOVE_##id,
#include "model/reading/move_table.h"
#undef MOVE
    MOVE_COUNT_
};

/* "reset", "rod" and so on: also what a work line is called that marks it done. */
const char *work_mark_name(enum move_kind kind);

/* The move that a work line of that kind marks done; MOVE_COUNT_ for a line of the tech's own. */
enum move_kind work_mark_named(const char *kind);

/* Found by relief, gaps and heights alone, which every pass reads: rod, slots and saddle. They are
 * listed while they are good, too. */
bool move_is_measured(enum move_kind kind);

/* Whether a work line was done after the pass was read; false where a time is missing. */
bool work_mark_is_since(struct place place, int line);

/* Whether a work line says that other strings went on between a pass and the one after it, and
 * whether one says that the same ones were tuned to other notes. */
bool work_mark_is_restrung(struct place place);
bool work_mark_is_retuned(struct place place);

/* The last work line that marks a move done between a pass and the one after it; 0 for none. */
int work_mark_line(struct place place, enum move_kind kind);

#endif
