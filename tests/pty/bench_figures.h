/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_FIGURES_H
#define SILLET_TESTS_BENCH_FIGURES_H

#include "terminal.h"

/* Figures as `sillet figures` prints them, read from a text. */

/* The value of a key in a section; fails the test when there is none. */
double figure_in(const char *text, const char *section, const char *key);
double figure_of_string(const char *text, int string, const char *key); /* of [string.N] */

/* What a move ("slot", "saddle") is to change on a string, mm; 0 where it is not due. */
double figure_of_move(const char *text, const char *move, int string);

/*
 * The row of moves on screen, in inches, has for every string what the figures say of the move,
 * rounded to a thousandth toward less wood taken off, or says that it is right as it is.
 */
void figures_expect_row(struct terminal *terminal, const char *label, const char *text,
                        const char *move, int strings);

/*
 * Every figure of geometry, moves and reset (model, 1 to 5) in `want` must be in `got` to 1e-6
 * of itself. Left out: what hangs on cents and climate, which are not entered at the bench,
 * and pitch and clearance by fret.
 */
void figures_expect_moves(const char *got, const char *want);

#endif
