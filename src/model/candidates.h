/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_CANDIDATES_H
#define SILLET_MODEL_CANDIDATES_H

#include <stdbool.h>
#include <stddef.h>

#include "model/field.h"
#include "model/name_match.h"

/*
 * Fields whose answers have names: choices, woods, string materials. Which of the names a typed
 * text could mean. Compared as name_match.h
 * folds. Other names of the trade are known too: "rock maple" is sugar maple, "dovetail" a glued
 * neck.
 */

enum { CANDIDATES_MAX = 64, CANDIDATE_NAME_SIZE = 48 };

/* Those that fit equally well, none of a worse fit. */
struct candidates {
    enum name_fit fit;
    int count;
    int at[CANDIDATES_MAX]; /* places in the field's list, from 0 */
};

/* Whether a field has a list of names, and whether it takes nothing else. */
bool candidates_has_list(const struct field *field);
bool candidates_is_closed(const struct field *field);

/* How many names its list has; the k-th (from 0), false past the last. */
int candidates_count(const struct field *field);
bool candidates_name(const struct field *field, int k, char *out, size_t size);

/*
 * The names that `text` could mean, in the order of the list. A name typed whole is the only one;
 * another name for it ("bronze") is too, unless others begin so.
 */
void candidates_find(const struct field *field, const char *text, struct candidates *ret_found);

#endif
