/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_COLUMNS_H
#define SILLET_TESTS_COLUMNS_H

#include <stddef.h>

/* Tables of the benchmarks: a row for what is measured, a column for each program. */
enum { COLUMNS_MAX = 4, SAMPLES_MAX = 200 };

struct samples {
    double value[SAMPLES_MAX];
    int count; /* 0: this program cannot do it */
};

/* What the programs are called; the first is the bare one, the others are sillets. */
void columns_print_head(const char *title, const char *what, int programs);

/* One row: of each program the median and what 90 and 99 % lie below. Sorts the samples. */
void columns_print(const char *name, struct samples *samples, int programs);

/* The exponent p of cost = size^p from one size to another; prints a dash where it is not known. */
void columns_print_exponent(double size_a, double cost_a, double size_b, double cost_b);

/* A folder of the benchmark's own, which is the home of every program it starts. */
const char *columns_home(void);
void columns_remove_home(void);

#endif
