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
 *     all       pitch
 *     source    B. Suits, Frequencies for equal-tempered scale, Michigan Technological University
 *     place     table, printed to 0.01 Hz
 *     origin    read
 *     function  frequency
 *     given     a4 440 Hz
 *
 *     case      open low string
 *     given     note E2
 *     expect    frequency 82.41 Hz   within 0.005 Hz
 *
 *     columns   note   frequency Hz   within 0.005 Hz
 *     row       A0     27.50
 *     row       A#0    29.14
 *
 * A block begins with `case`, `row` or `all` and ends before the next one. The title of `all` is
 * the group in which its cases are counted. What an `all` block says holds for the cases below
 * it, up to the next `all`; a case may override it. Items are NAME VALUE [UNIT], with two blanks
 * or more between items. `columns` names what the rows below give and, last, what they expect.
 * A text (source, place, because, exception) continues in lines that begin with a blank. Each
 * `expect` line holds one answer and its tolerance; a number may be a fraction, 5/384. `#` begins
 * a comment line.
 *
 * Every case has a source (the work), a place in it, and an origin: `read` there or in a reprint,
 * from `memory`, or a rule of `practice` that nobody has published. What was computed here from
 * a formula is no published number, and `computed` is refused. A tolerance over half the last
 * printed digit needs a `because`. An `exception` says why a case is known to come out wrong;
 * such a case fails once it comes out right, so that the mark is taken away.
 */

enum { PUBLISHED_ITEMS_MAX = 12, PUBLISHED_CASES_MAX = 1000, PUBLISHED_LINE_MAX = 400 };

struct published_item {
    char name[40];
    char text[40]; /* the value as written */
    char unit[16]; /* "" for none */
    double within; /* of an expected value */
    double found;  /* what the function answered; NaN before */
    bool used;
};

struct published_case {
    int line;
    char group[80];
    char title[120];
    char source[300], place[300], origin[20];
    char because[300];   /* why the tolerance is wider than the print; "" where it is not */
    char exception[300]; /* why it is known to come out wrong; "" where it does not */
    char function[60];
    struct published_item given[PUBLISHED_ITEMS_MAX];
    size_t given_count;
    struct published_item expect[PUBLISHED_ITEMS_MAX];
    size_t expect_count;
    struct published_item columns[PUBLISHED_ITEMS_MAX]; /* of the rows below */
    size_t column_count;
};

/*
 * Reads a table's cases; the caller frees *ret_cases. On a table that makes no sense
 * returns false with the line and a sentence in `fault`, the outputs untouched.
 */
bool published_read(FILE *file, struct published_case **ret_cases, size_t *ret_count, char *fault,
                    size_t fault_size);

/* The number that a text holds, "82.41" or "5/384"; false for anything else. */
bool published_parse(const char *text, double *ret_value);

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
 * Runs a case by a NULL-ended list of dispatch tables and keeps what was found in its expected
 * items. Fails the running test when an answer is off, missing or NaN, when the function is
 * unknown or fails, or a given item is unused; and when all answers of an exception are good.
 */
void published_check(struct published_case *c, const struct published_function *const *tables);

/*
 * Prints what cases that have run came to: every check with source, place, published number,
 * sillet's, their difference and origin, by group;
 * then the totals.
 */
void published_print(FILE *out, const struct published_case *cases, size_t count);

/* The same as tables of Markdown: a line for each quantity of a group, and the exceptions. */
void published_print_summary(FILE *out, const struct published_case *cases, size_t count);

#endif
