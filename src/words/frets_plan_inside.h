/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_FRETS_PLAN_INSIDE_H
#define SILLET_WORDS_FRETS_PLAN_INSIDE_H

#include "words/frets_plan.h"

/* What the files of the frets' words share. */

/* A crown is not read finer than this, mm. */
#define HIGH_LEAST_MM 0.01

/* Headroom and air over a fret are small, so they are given as feeler leaves give gaps. */
void frets_add_gap(struct strbuf *out, double mm, const struct shop_units *units);

/* "string 6 ", "course 3 " */
void frets_add_string(struct strbuf *out, const struct frets_plan *plan, int string);

#endif
