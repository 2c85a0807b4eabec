/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_H
#define SILLET_LEAF_HISTORY_HISTORY_H

#include <stdbool.h>

#include "base/maybe.h"
#include "base/strbuf.h"
#include "model/figure/bench_row.h"
#include "model/reading/field.h"
#include "model/figure/figure.h"
#include "model/reading/record.h"
#include "model/setup/survey_rod.h"
#include "model/survey/next_check.h"
#include "session/pass_place.h"

/* All passes of all visits side by side, oldest first, and what changed between them. */

/* The bench's rows (the open gap, even if it was read held down), then the others. */
enum history_row {
#define BENCH_ROW(id, ...) HISTORY_##id,
#include "model/figure/bench_row_table.h"
#undef BENCH_ROW
    HISTORY_TURN,
    HISTORY_HUMIDITY, /* from here on, of the visit */
    HISTORY_TEMPERATURE,
    HISTORY_EMC,
    HISTORY_ROW_COUNT_
};

/* The outer two strings; a row with a single value has it on the bass side. */
enum history_side { HISTORY_BASS, HISTORY_TREBLE, HISTORY_SIDE_COUNT_ };

struct history_value {
    double value; /* mm, turns, %, C */
    bool given;
    bool taken; /* not read, but taken from the neighbouring strings */
};

struct history_pass {
    int visit, pass;
    struct maybe day; /* moment.h */
    struct history_value value[HISTORY_ROW_COUNT_][HISTORY_SIDE_COUNT_];
    struct survey_rod rod; /* what the turns up to this pass teach */
};

enum { HISTORY_PASSES_MAX = 256 };

/* Which passes there are, oldest first; if there are more, the last ones. Enough to move about in
 * them, and quick to make. */
struct history_index {
    struct pass_place passes[HISTORY_PASSES_MAX];
    int count;
    int earlier; /* passes before the first of them */
};

void history_index_make(const struct record *record, struct history_index *ret_index);

/* The index of a pass; -1 if it is not there. */
int history_index_find(const struct history_index *index, struct pass_place pass);

/* The same passes with their values, for drawing: each is solved. */
struct history {
    struct outfit outfit;
    struct history_pass passes[HISTORY_PASSES_MAX];
    int count, earlier;
    struct next_check next_check; /* after the last of them */
};

void history_make(const struct record *record, const struct history_index *index,
                  struct history *ret_history);

/* The last pass of the visit before that of the pass at `at`: the state in which that visit ended.
 * -1 for none. */
int history_last_visit(const struct history *history, int at);

/* The change from one pass to a later one; false if one of the two values is not known, or if the
 * row has no changes: the rod's turns, and climate within a visit. */
bool history_change(const struct history *history, int from, int to, enum history_row row,
                    enum history_side side, double *ret_change);

/* Whether the instrument has that row: what is asked of it, or was read all the same. */
bool history_has_row(const struct history *history, enum history_row row);

/* How many rows that it has stand above one; above HISTORY_ROW_COUNT_ all of them. */
int history_rows_before(const struct history *history, int row);

/* The row of the bench that it shows; NULL for the others. */
const struct bench_row *history_bench_row(const struct outfit *outfit, enum history_row row);

/* "relief", "nut gap" ...; under a bar the heights at the ends have rows of theirs. */
const char *history_row_name(const struct outfit *outfit, enum history_row row);

/* The figure that `?` explains in a row: the one shown, or one that the reading goes into. */
enum figure_id history_row_figure(const struct outfit *outfit, enum history_row row);

/* The unit of a row as its heading shows it: "in", "/64", "turn", "%". */
const char *history_row_unit(const struct outfit *outfit, enum history_row row,
                             const struct shop_units *units);

/* Appends a value of a row, or with `change` a change, without its unit. */
void history_add(struct strbuf *out, const struct outfit *outfit, enum history_row row,
                 double value, bool change, const struct shop_units *units);

/* Whether a row holds lengths, which are written with the decimals of their gauge. */
bool history_is_length(const struct outfit *outfit, enum history_row row);

#endif
