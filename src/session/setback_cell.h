/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_SETBACK_CELL_H
#define SILLET_SESSION_SETBACK_CELL_H

#include "session/app.h"

/* A string's setback after its saddle was moved, as logged, and until it is read again. */

/* Whether the cell is such a setback: what is filed of it is no longer so. */
bool setback_cell_is_moved(const struct app *app, const struct route_cell *cell);

/* For a leaf with such cells (leaf.h). Absent where nobody knows how far it was moved. */
struct maybe setback_cell_expected(const struct app *app, const struct route_cell *cell);
bool setback_cell_add_after(const struct app *app, struct strbuf *out);

#endif
