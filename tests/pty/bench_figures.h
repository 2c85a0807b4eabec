/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_FIGURES_H
#define SILLET_TESTS_BENCH_FIGURES_H

/* Figures as `sillet figures` prints them, read from a text. */

/* The value of a key in a section; fails the test when there is none. */
double figure_in(const char *text, const char *section, const char *key);

/*
 * Every figure of geometry, moves and reset (model, 1 to 5) in `want` must be in `got` to 1e-6
 * of itself. Left out: what hangs on cents and climate, which are not entered at the bench,
 * and pitch and clearance by fret.
 */
void figures_expect_moves(const char *got, const char *want);

#endif
