/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_EXPECTED_H
#define SILLET_LEAF_BENCH_EXPECTED_H

#include "model/survey/forecast.h"
#include "session/app.h"

/*
 * What a cell of the bench should read after the work done since the pass before: the moves that
 * the Work leaf marks done; if none is marked, the rod if it was due, else slots and saddle. A rod
 * goes as far as the turns logged, or asked for at once, take it. Absent if that is not known, as
 * after a neck reset, and for the relief of a rod whose answer nobody knows.
 */
struct maybe bench_expected(const struct app *app, const struct route_cell *cell);

/* The same for one cell after another, of the same record: begun with the first. */
struct bench_expecting {
    bool begun;
    struct forecast forecast; /* once begun */
};
struct maybe bench_expect(struct bench_expecting *expecting, const struct app *app,
                          const struct route_cell *cell);

/* Appends after which moves that is: "after rod, slots, as marked on Work"; false, nothing
 * appended, after a neck reset. */
bool bench_add_expected_after(const struct app *app, struct strbuf *out);

#endif
