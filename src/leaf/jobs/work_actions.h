/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_ACTIONS_H
#define SILLET_LEAF_JOBS_WORK_ACTIONS_H

#include "model/reading/work_mark.h"
#include "session/turn.h"

/* The commands of the Work leaf, and what goes with an entry on it. */

/* Takes in hand the next move that is left; false if there is none. */
bool work_take_next(struct app *app);

/* Marks the move in hand done as planned. */
void work_mark_done(struct turn *turn);
bool work_can_mark_done(const struct app *app);
void work_add_to_mark(const struct app *app, struct strbuf *out);

/* Begins a line of the tech's own. */
void work_write_own(struct turn *turn);
bool work_can_write_own(const struct app *app);

/* Takes out the line in hand, or the one that marks the move in hand done. */
void work_take_out(struct turn *turn);
bool work_can_take_out(const struct app *app);

/* Whether the pass in hand, or one before it in its visit, asked for a neck reset. */
bool work_can_ask_templates(const struct app *app);

/* What the leaf keeps: the state of a work line before an entry is filed in one of its cells. */
struct work_begun {
    bool fresh;
    enum move_kind kind; /* MOVE_COUNT_: a line of the tech's own */
    char proof[200];
};

/* For the leaf's row (leaf.h). A new line gets its time. One for a move also gets the move's name
 * and the reading that shows it done, and rod turns are logged as such too. */
void work_accept(struct turn *turn);
void work_begin_line(struct app *app);
void work_complete(struct turn *turn, const char *text);
void work_look_about(const struct app *app, struct doubt_about *about, enum field_id *field,
                     struct entry_view *view);

#endif
