/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_USUAL_H
#define SILLET_MODEL_SURVEY_USUAL_H

#include "model/survey/shelf_facts.h"

/* What a shop usually sets: targets, and what was last left, over the instruments of a kind. */

/* The median and the ends of the middle half, between values linearly. */
struct usual {
    int count; /* of values; 0: nothing is known */
    double low_mm, median_mm, high_mm;
};

enum { USUAL_ROWS = 5 };

struct usual_row {
    const char *label;
    enum field_id target;
    enum fact_number wanted, left;
};

/* Relief, action and nut gap at both ends, in the order of the targets; `i` from 0. */
const struct usual_row *usual_row_get(int i);

/* What is wanted of the instruments of a kind, in all rows. */
struct usuals {
    char kind[KIND_NAME_SIZE]; /* "electric"; "" for none */
    struct usual wanted[USUAL_ROWS];
};

/* From values, which are sorted in place. */
struct usual usual_of(double *values, int count);

/* What is usual for a target; NULL where fewer than USUAL_LEAST instruments say. */
enum { USUAL_LEAST = 3 };
const struct usual *usual_for_target(const struct usuals *usuals, enum field_id target);

#endif
