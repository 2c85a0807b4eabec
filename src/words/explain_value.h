/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_EXPLAIN_VALUE_H
#define SILLET_WORDS_EXPLAIN_VALUE_H

#include "words/explain.h"
#include "words/explain_item.h"

/* Private to words: how an explanation says a value. A length stands in the shop's unit with the
 * other one in brackets; what is absent is said to be so. `string` is the string asked about. */

/* Appends a figure with its ±, and where it was interpolated from. */
void explain_add_figure(const struct explain_from *from, enum figure_id id, int string,
                        struct strbuf *out);

/* Appends a reading as it was typed, or the fallback that stands in for it. */
void explain_add_field(const struct explain_from *from, struct reading_key key, struct strbuf *out);

void explain_add_item(const struct explain_from *from, enum setup_item item, int string,
                      struct strbuf *out);

#endif
