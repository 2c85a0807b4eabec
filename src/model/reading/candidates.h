/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_CANDIDATES_H
#define SILLET_MODEL_READING_CANDIDATES_H

#include "model/reading/name_list.h"
#include "model/common/name_match.h"

/* Which names of a list a typed text could mean. Compared as name_match.h folds; other names of
 * the trade are known too. */

/* Those that fit equally well, none of a worse fit. */
struct candidates {
    enum name_fit fit;
    int count;
    int at[NAME_LIST_MAX]; /* places in the list, from 0 */
};

/*
 * The names that `text` could mean, in the order of the list. A name typed whole is the only one;
 * another name for it ("bronze") is too, unless others begin so.
 */
void candidates_find(const struct name_list *list, const char *text, struct candidates *ret_found);

#endif
