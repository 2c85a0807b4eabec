/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PUBLISHED_H
#define SILLET_TESTS_PUBLISHED_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/status.h"

/*
 * Published numbers as test cases, in tables that can be extended without programming:
 *
 *     all       frequencies                          (may stand for several cases)
 *     source    ISO 16:1975, ... printed to 0.01 Hz
 *     function  frequency
 *     given     a4 440 Hz
 *
 *     case      open low string
 *     given     note E2
 *     expect    frequency 82.41 Hz   within 0.005 Hz
 *
 * A block begins with `case` or `all` and ends before the next one. An `all` block
 * holds for the cases below it, up to the next `all`; a case may override it.
 * Items are NAME VALUE [UNIT], with two blanks or more between items. `source` continues in
 * lines that begin with a blank. Each `expect` line holds one answer and its tolerance, or
 * `failure STATUS_NAME`. `#` begins a comment line. A case without `source`, `function`
 * or `expect` is refused, as is an item that its function does not use.
 */

enum { PUBLISHED_ITEMS_MAX = 24, PUBLISHED_CASES_MAX = 1000, PUBLISHED_LINE_MAX = 400 };

struct published_item {
    char name[40];
    char text[40]; /* the value as written */
    char unit[16]; /* "" for none */
    double within; /* of an expected value */
    bool used;
};

struct published_case {
    int line;
    char title[120];
    char source[600];
    char function[60];
    struct published_item given[PUBLISHED_ITEMS_MAX];
    size_t given_count;
    struct published_item expect[PUBLISHED_ITEMS_MAX];
    size_t expect_count;
};

/*
 * Reads a table's cases; the caller frees *ret_cases. On a table that makes no sense
 * returns false with the line and a sentence in `fault`, the outputs untouched.
 */
bool published_read(FILE *file, struct published_case **ret_cases, size_t *ret_count, char *fault,
                    size_t fault_size);

/* For the functions below; each fails the running test when it does not find its item.
 * A given number, whose unit must be `unit` as written there ("" for none). */
double published_number(struct published_case *c, const char *name, const char *unit);

/* The same where the item may be left out. */
double published_number_or(struct published_case *c, const char *name, const char *unit,
                           double otherwise);

/* A given word. */
const char *published_text(struct published_case *c, const char *name);

/* What a function found: any number of named values. */
struct published_answers {
    struct {
        const char *name, *unit;
        double value;
    } all[PUBLISHED_ITEMS_MAX];
    size_t count;
};

/* Adds an answer; name and unit must outlive it (string literals). */
void published_answer(struct published_answers *answers, const char *name, double value,
                      const char *unit);

/* A row of an area's dispatch table: takes its given items, calls the model, adds its
 * answers; returns the model's status. The table ends with a NULL name. */
struct published_function {
    const char *name;
    enum status (*run)(struct published_case *c, struct published_answers *answers);
};

extern const struct published_function published_strings[]; /* cases_strings.c */
extern const struct published_function published_wood[];    /* cases_wood.c */

/*
 * Runs a case by a NULL-ended list of dispatch tables; fails the running test when an
 * answer is off, missing or NaN, when the function is unknown, or a given item unused.
 */
void published_check(struct published_case *c, const struct published_function *const *tables);

#endif
