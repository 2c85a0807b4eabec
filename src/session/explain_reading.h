/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_EXPLAIN_READING_H
#define SILLET_SESSION_EXPLAIN_READING_H

#include "session/app.h"
#include "words/explain.h"

/* Explains a cell: what is measured and between which points, what it holds or should read, how to
 * measure it (how_table.h), its choices, what is usual, and what is used if it is left out. */
void explain_reading(const struct app *app, const struct route_cell *cell,
                     struct explanation *ret_explanation);

/* Whether the figure that `?` explains (app_figure) follows from this cell. */
bool explain_reading_has_figure(const struct app *app, const struct route_cell *cell);

#endif
