/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_EXPLAIN_READING_H
#define SILLET_SESSION_EXPLAIN_READING_H

#include "session/app.h"
#include "words/explain.h"

/* What a cell asks for: what is measured, from where to where, what it holds and should hold, how
 * it is taken and what is usual (how_table.h), what holds where it is left out. */
void explain_reading(const struct app *app, const struct route_cell *cell,
                     struct explanation *ret_explanation);

/* Whether the figure that `?` explains (app_figure) follows from this cell. */
bool explain_reading_has_figure(const struct app *app, const struct route_cell *cell);

#endif
