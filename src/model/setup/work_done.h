/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_WORK_DONE_H
#define SILLET_MODEL_SETUP_WORK_DONE_H

#include "model/setup/move.h"

/* How much of a move was done: what its work line says, else what was planned. */
struct work_done {
    bool is_said;       /* in numbers that make sense */
    bool unread;        /* in numbers that make none: it is taken as planned */
    struct maybe turns; /* rod, + tightens: as logged for the pass after, else as the line says;
                         * absent where neither does */
    double mm[STRINGS_MAX + 1]; /* slots, saddle: by string, 0 for one that was left; NAN where
                                 * something was done and nobody knows how much */
};

/* What a move of slots or saddle, made as planned, lifts a string by, mm; NAN where none was
 * planned.
 */
double work_planned_mm(const struct setup *setup, const struct move *move, int string);

/* Of the rod, the slots or the saddle, as a pass asked for it; nothing was done where no line marks
 * it. `setup` is that pass's. */
void work_done_find(struct place place, const struct setup *setup, const struct move_set *planned,
                    enum move_kind kind, struct work_done *ret_done);

/* Whether an amount, typed of a move, is not understood: nobody can tell how much was done. */
bool work_done_is_unread(const struct setup *setup, enum move_kind kind, const char *text);

/* Whether it may have changed what is read of a string (0: of any), which then has to be read
 * again: it was done there, or no line marks it and it was due there. */
bool work_done_reaches(const struct work_done *done, const struct move_set *planned,
                       const struct setup *setup, enum move_kind kind, int string);

#endif
