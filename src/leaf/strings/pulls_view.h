/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_PULLS_VIEW_H
#define SILLET_LEAF_STRINGS_PULLS_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The strings' pulls in columns, as they are and as a what-if would have them, and as bars. */

enum { PULLS_TOTAL = 0, PULLS_MAX = 8, PULLS_MASS_WIDTH = 14 };

struct pulls_column;

/* Columns side by side. */
struct pulls {
    const struct app *app;
    int column; /* where they begin */
    int width;  /* together */
    const struct pulls_column *columns[PULLS_MAX];
    int count;
};

/* Pull (in an inch shop also in lb) and stress as they are. */
void pulls_lay_now(struct pulls *pulls, const struct app *app);

/* And the unit mass with where it comes from. */
void pulls_add_mass(struct pulls *pulls);

/* Note, gauge where a set is asked, pull, change, stress; with room the share of the total. */
void pulls_lay_then(struct pulls *pulls, const struct app *app, bool roomy);

/* Names, and units in the row under them. */
void pulls_draw_heading(const struct pen *pen, const struct pulls *pulls, int row);

/* A string's row, or PULLS_TOTAL. */
void pulls_draw(const struct pen *pen, const struct pulls *pulls, int row, int string);

/* Every string's pull as a bar, the bass string first; a mark where the what-if has it. */
void pulls_draw_bars(const struct pen *pen, const struct app *app, int row);

#endif
