/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_FRET_WORDS_H
#define SILLET_WORDS_FRET_WORDS_H

#include "model/reading/outfit.h"

/*
 * Appends a text of a table, which speaks of frets and their crowns. Where the instrument has none,
 * these are marks and the board; a text that another would have to stand for has it behind a '|'.
 */
void fret_words_add(const struct outfit *outfit, const char *text, struct strbuf *out);

#endif
