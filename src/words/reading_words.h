/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_READING_WORDS_H
#define SILLET_WORDS_READING_WORDS_H

#include "base/strbuf.h"
#include "model/reading/outfit.h"

/* Appends the name of a reading: "action, string 6", "action, course 3", "cents at fret 5, string
 * 1". */
void reading_words_add_name(struct strbuf *out, const struct reading_key *key,
                            const struct outfit *outfit);

/* Appends where it was filed: "visit 3, pass 2, ", "visit 3, work line 1, ", "from visit 3 on, " of
 * a change; nothing for what the instrument was first filed with. */
void reading_words_add_place(struct strbuf *out, const struct reading_key *key);

#endif
