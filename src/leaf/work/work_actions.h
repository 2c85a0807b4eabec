/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_WORK_WORK_ACTIONS_H
#define SILLET_LEAF_WORK_WORK_ACTIONS_H

#include "model/reading/work_mark.h"
#include "session/turn.h"

/* What the work leaf's keys do, and what an entry on it brings along. */

/* Takes the next move that is left in hand, where there is one. */
void work_take_next(struct app *app);

/* Marks the move in hand done as planned. */
void work_mark_done(struct turn *turn);
bool work_can_mark_done(const struct app *app);
void work_add_to_mark(const struct app *app, struct strbuf *out);

/* Begins a line of one's own. */
void work_write_own(struct turn *turn);
bool work_can_write_own(const struct app *app);

/* Takes the line in hand out, or the one that marks the move in hand done. */
void work_take_out(struct turn *turn);
bool work_can_take_out(const struct app *app);

/* A work line as it was before one of its cells is taken from an entry: what the leaf keeps. */
struct work_begun {
    bool fresh;
    enum move_kind kind; /* MOVE_COUNT_: a line of one's own */
    char proof[200];
};

/* For the leaf's row (leaf.h): a new line gets its time, one that stands for a move its name and
 * what should prove it, and turns of the rod are logged as such too. */
void work_accept(struct turn *turn);
void work_begin_line(struct app *app);
void work_complete(struct turn *turn, const char *text);
void work_look_about(const struct app *app, struct doubt_about *about, enum field_id *field,
                     struct entry_view *view);

#endif
