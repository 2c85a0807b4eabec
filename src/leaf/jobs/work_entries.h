/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_ENTRIES_H
#define SILLET_LEAF_JOBS_WORK_ENTRIES_H

#include "model/reading/work_mark.h"
#include "session/turn.h"

/* What goes with an entry on the Work leaf: a new line gets its time; one for a move also gets the
 * move's name and the reading that shows it done, and rod turns are logged as such too. */

/* For the leaf's row (leaf.h). */
void work_accept(struct turn *turn);
void work_begin_line(struct app *app);
void work_complete(struct turn *turn, const char *text);
void work_look_about(const struct app *app, struct doubt_about *about, enum field_id *field,
                     struct entry_view *view);

/* What the leaf keeps: the state of a work line before an entry is filed in one of its cells. */
struct work_begun {
    bool fresh;
    enum move_kind kind; /* MOVE_COUNT_: a line of the tech's own */
    char proof[200];
};
struct work_begun *work_begun_of(const struct app *app);

/* Remembers what is known of a line before it is written; the second then adds what goes with it,
 * as a part of the turn's step. Fails as turn_put. */
void work_begin(struct app *app, int line);
enum status work_complete_line(struct turn *turn, int line);

/* The row for a line of the tech's own; -1 where a visit can hold no more of them. */
int work_find_own(const struct app *app);

/* Takes in hand the next move that is left; false if there is none. */
bool work_take_next(struct app *app);
/* The same after a move is logged. Where none is left, what is typed next must not land on a line
 * that is written already: the row for one of the tech's own. */
void work_take_next_or_own(struct app *app);

/* Says that a later pass was read, and drops the entry. */
void work_refuse_past(struct turn *turn);

#endif
