/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_JOBS_WORK_VIEW_H
#define SILLET_LEAF_JOBS_WORK_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/*
 * The job list in `rows` rows (at least 19): the moves in order, each with its amounts, what
 * the gauge reads afterwards and its caution; the work lines of the visit; an empty line for one
 * more; what is left to do. Returns a caution that is not shown there.
 */
const char *work_view_draw(const struct pen *pen, const struct app *app, int row, int rows);

/* Adds this leaf's prompt for the entry line. */
void work_view_add_prompt(const struct app *app, struct strbuf *out);
void work_view_add_hint(const struct app *app, struct strbuf *out);

#endif
