/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_CAUTION_H
#define SILLET_WORDS_CAUTION_H

#include <stdbool.h>

/* The cautions for work that goes by words of its own. The rows stand in caution_table.h. */

/* How many there are, and the k-th of them. */
int caution_count(void);
const char *caution_text(int k);

/* Whether the k-th stands by work that is called like this: one of its words begins a word
 * of the text, ASCII case ignored. */
bool caution_applies(int k, const char *work);

/* What the k-th means for whoever gets the instrument back after work that is called like
 * this, or with wood in it that is; NULL for nothing. */
const char *caution_for_owner(int k, const char *work);

/* What all of them give way to. */
const char *caution_reserve(void);

#endif
