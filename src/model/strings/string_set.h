/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_STRINGS_STRING_SET_H
#define SILLET_MODEL_STRINGS_STRING_SET_H

#include <stdbool.h>

#include "base/status.h"
#include "model/strings/tension.h"

/*
 * Sets of strings by name: gauges as they are usual, by family and weight. A set in the hand
 * can differ; its label or a balance knows better. The rows stand in share/sets.csv.
 */

/* One string of a set: a row of the table. */
struct string_of_set {
    const char *set;
    int string; /* 1 is the highest-pitched */
    struct string_build build;
    double mass_kg_per_m; /* 0: from the build */
    const char *source;
};

struct string_set {
    const char *name;
    int strings;
    const struct string_of_set *string; /* [0] is string 1 */
};

/* Goes to the next set in the order of the table. Begin with a struct that is all zero;
 * false, *set untouched, past the last. */
bool string_set_next(struct string_set *set);

/* By name, as same_name.h compares. STATUS_NOT_FOUND. */
enum status string_set_find(const char *name, struct string_set *ret_set);

#endif
