/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_CAUTION_H
#define SILLET_WORDS_CAUTION_H

#include <stdbool.h>

/* The cautions that go with kinds of work. The rows are in caution_table.h. */

/* How many there are, and the k-th of them. */
int caution_count(void);
const char *caution_text(int k);

/* Whether the k-th goes with work of this name: one of its words begins a word of the name, in
 * upper or lower case. */
bool caution_applies(int k, const char *work);

/* What the k-th tells the owner who gets the instrument back after work of this name, or with this
 * wood in it; NULL for nothing. */
const char *caution_for_owner(int k, const char *work);

/* Whether one of these words, separated by |, begins a word of a text. */
bool caution_has_word(const char *text, const char *words);

/* What comes before all of them. */
const char *caution_reserve(void);

#endif
