/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_WORK_AMOUNT_H
#define SILLET_MODEL_WORK_AMOUNT_H

#include <stdbool.h>

#include "model/reading/outfit.h"

/*
 * What a work line says in numbers of how much was done: ".8 mm", "1/4 turn", "3/4 turn bass, 1/2
 * turn treble", "string 6 -.008, 5 -.007 in", "course 3 -.008 in", "string 6 back .09, 5 forward
 * .04 in", or a signed number for each string, or course, from bass to treble. A number without a
 * unit takes the next one to its right, else to its left. What is not written in one of these ways
 * says nothing in numbers; a plan then stands for it.
 */

enum work_amount_unit { WORK_AMOUNT_NONE, WORK_AMOUNT_MM, WORK_AMOUNT_TURNS };

struct work_amount {
    enum work_amount_unit unit; /* NONE: nothing is said in numbers */
    bool unread; /* there are numbers, but they make no sense; not so in the program's own words */
    bool is_said[STRINGS_MAX + 1];
    bool has_sign[STRINGS_MAX + 1];     /* whether a sign tells up from down */
    double value[STRINGS_MAX + 1];      /* by string; element 0: of all of them, or of the rod */
    struct maybe back[STRINGS_MAX + 1]; /* the same where it says "back", or "forward", below 0 */
};

/* `text` may be NULL. A bass and a treble amount become one for each string. */
void work_amount_find(const char *text, const struct outfit *outfit,
                      struct work_amount *ret_amount);

/* The changes by string, signed, in mm or turns, of a text in the program's own words, where the
 * unit stands once, with the doubt: "height +-0.05 mm; string 6 -0.95, 5 -1.1". Nothing is said
 * where it names no string. */
void work_amount_of_plan(const char *text, const struct outfit *outfit,
                         struct work_amount *ret_amount);

/* A number, or numbers, alone: it says neither what was done nor, without a unit, how much. */
bool work_amount_is_bare(const char *text);

#endif
