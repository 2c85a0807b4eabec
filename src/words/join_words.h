/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_JOIN_WORDS_H
#define SILLET_WORDS_JOIN_WORDS_H

#include "base/strbuf.h"
#include "model/reading/record_join.h"

/* A difference of two versions being put together, in words. Each function appends to `out`. */

/* Where it is: "visit 3, pass 2, action, string 6"; "visit 5, whole". */
void join_words_add_where(struct strbuf *out, const struct record_join *join,
                          const struct join_difference *difference);

/* What a side has: the text as filed; "2 passes, 31 entries" of a visit; "nothing". */
void join_words_add_value(struct strbuf *out, const struct record_join *join,
                          const struct join_difference *difference, enum join_version version);

/* Where the texts of both sides begin to differ, in bytes, at the beginning of a word; 0 if they do
 * so at once, or if only one side has one. */
size_t join_words_shared(const struct record_join *join, const struct join_difference *difference);

/* Why it is proposed or asked: "only the right changed it; it was 2.5 mm". The sides are called
 * left and right. */
void join_words_add_why(struct strbuf *out, const struct record_join *join,
                        const struct join_difference *difference);

#endif
