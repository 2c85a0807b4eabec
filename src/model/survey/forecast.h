/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_FORECAST_H
#define SILLET_MODEL_SURVEY_FORECAST_H

#include "model/derive/derive.h"
#include "model/figure/bench_row.h"

/*
 * What a pass should read after the work done since the pass before it: the moves that work lines
 * mark done; if none is marked, the rod if it was due, else frets, slots and saddle. A rod goes as
 * far as the turns logged, or asked for at once, take it.
 */

struct forecast {
    const struct record *record;
    const struct derived *before; /* of the pass before */
    int visit, pass;              /* the one that is forecast */
    bool marked;                  /* work lines say so */
    bool move[MOVE_COUNT_];
    bool unread; /* what they say of how much makes no sense */
    /* Slots and saddle: by how much, up (+) or down; NAN where nobody knows. */
    double mm[MOVE_COUNT_][STRINGS_MAX + 1];
    struct setup level; /* as `before` was read, without the crowns that were taken down */
    struct maybe share; /* of the way to its target that the rod went; absent where unknown */
    double share_u;     /* of a share that was read, about 95 % */
};

/* `record` and `before` must outlast it; `before` is of the pass before `pass` of that visit. */
void forecast_begin(struct forecast *ret_forecast, const struct record *record,
                    const struct derived *before, int visit, int pass);

/* Goes by the relief that the pass reads: how much of the way to its target a rod that was due went
 * by that. `share` is absent where the rod was not due or no relief is read. */
void forecast_go_by_relief(struct forecast *forecast);

/* Whether anything was done after which no reading can be told, as a neck reset. */
bool forecast_is_beyond(const struct forecast *forecast);

/* What a row reads at a string (0 for one that is read once), its gaps read by `method`: with how
 * far that may be off by what was read before, about 95 %. Absent if it is not known. */
struct believed forecast_find(const struct forecast *forecast, const struct bench_row *row,
                              enum field_id field, int string, enum nut_method method);

#endif
