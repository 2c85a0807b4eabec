/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CELL_WORDS_H
#define SILLET_SESSION_CELL_WORDS_H

#include "session/app.h"

/* Words about a cell of the session. Each function appends to `out`. */

/* What the entry line asks for: "relief at fret 6". */
void cell_words_add_name(const struct app *app, const struct route_cell *cell, struct strbuf *out);

/* The name and what the cell holds, as its row shows it: "relief at fret 6: .012", with `between`
 * ": ". A long text is cut. */
void cell_words_add_held(const struct app *app, const struct route_cell *cell, const char *between,
                         struct strbuf *out);

/* What is measured on this instrument, and between which points: "straightedge on frets 1 and 12,
 * the gap". With the name before it, it fits in one line of 80 columns. */
void cell_words_add_what(const struct app *app, const struct route_cell *cell, struct strbuf *out);

/* The length in the cell in every unit, and what it held in the pass before; if the cell is empty,
 * what it should read. Appends nothing if neither is known, or if it holds no length. */
void cell_words_add_now(const struct app *app, const struct route_cell *cell, struct strbuf *out);

#endif
