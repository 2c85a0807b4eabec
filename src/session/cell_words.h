/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_CELL_WORDS_H
#define SILLET_SESSION_CELL_WORDS_H

#include "session/app.h"

/* What is said of a cell of the session, each appended. */

/* What the entry line asks for: "relief at fret 6". */
void cell_words_add_name(const struct app *app, const struct route_cell *cell, struct strbuf *out);

/* What it holds, as its row shows it: "relief at fret 6: .012", with `between` ": ". A text in its
 * beginning. */
void cell_words_add_held(const struct app *app, const struct route_cell *cell, const char *between,
                         struct strbuf *out);

/* What is measured, from where to where, on this instrument: "straightedge on frets 1 and 12, the
 * gap". One line: with the name before it, it fits into 80 columns. */
void cell_words_add_what(const struct app *app, const struct route_cell *cell, struct strbuf *out);

/* A length that the cell holds in every unit, and what it held in the pass before; or what it
 * should read. Nothing where there is neither. */
void cell_words_add_now(const struct app *app, const struct route_cell *cell, struct strbuf *out);

#endif
