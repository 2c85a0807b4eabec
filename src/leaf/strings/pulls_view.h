/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_PULLS_VIEW_H
#define SILLET_LEAF_STRINGS_PULLS_VIEW_H

#include "session/app.h"
#include "draw/pen.h"

/* The strings' pulls in columns, now and with a what-if, and as bars. */

enum { PULLS_TOTAL = 0, PULLS_MAX = 8, PULLS_MASS_WIDTH = 14 };

struct pulls_column;

/* Columns side by side. */
struct pulls {
    const struct app *app;
    int column; /* of the screen, of the first one */
    int width;  /* of all of them */
    const struct pulls_column *columns[PULLS_MAX];
    int count;
};

/* Lays out the columns for now: pull (in an inch shop also in lb) and stress. */
void pulls_lay_now(struct pulls *pulls, const struct app *app);

/* Adds the unit mass and where it comes from. */
void pulls_add_mass(struct pulls *pulls);

/* Lays out the what-if: note, gauge if it is of a set, pull, change, stress; if `roomy`, the share
 * of the total. */
void pulls_lay_then(struct pulls *pulls, const struct app *app, bool roomy);

/* The columns' names, and their units in the row below. */
void pulls_draw_heading(const struct pen *pen, const struct pulls *pulls, int row);

/* A string's row, or PULLS_TOTAL. */
void pulls_draw(const struct pen *pen, const struct pulls *pulls, int row, int string);

/* Every string's pull as a bar, the bass string first, with a mark at the pull of the what-if. */
void pulls_draw_bars(const struct pen *pen, const struct app *app, int row);

#endif
