/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_NEAR_H
#define SILLET_TESTS_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/maybe.h"

/*
 * Comparisons of doubles for tests. cmocka 1.1.5 compares as float and lets NaN pass;
 * these fail with NaN on either side, and with an infinite tolerance.
 */
#define assert_near(got, want, tolerance)                                                          \
    near_check((got), (want), (tolerance), #got, __FILE__, __LINE__)

/* Relative: |got - want| <= share * |want|. */
#define assert_near_relative(got, want, share)                                                     \
    near_check_relative((got), (want), (share), #got, __FILE__, __LINE__)

void near_check(double got, double want, double tolerance, const char *what, const char *file,
                int line);
void near_check_relative(double got, double want, double share, const char *what, const char *file,
                         int line);

/* The value of a number that has to be there. */
#define assert_given(number) near_given((number), #number, __FILE__, __LINE__)

double near_given(struct maybe number, const char *what, const char *file, int line);

/* The bare comparison, for helpers that build their own message: true when near. */
int near_is(double got, double want, double tolerance);

#endif
