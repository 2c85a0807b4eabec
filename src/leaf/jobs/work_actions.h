/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_ACTIONS_H
#define SILLET_LEAF_JOBS_WORK_ACTIONS_H

#include "model/reading/work_mark.h"
#include "session/turn.h"

/* The commands of the Work leaf. */

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

#endif
