/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_DOUBT_WORDS_H
#define SILLET_SESSION_DOUBT_WORDS_H

#include "base/strbuf.h"
#include "model/doubt/doubt.h"

/* Appends a doubt as one sentence: "24 mm is more than usual; 2.4 mm is typed 2.4". With "Enter
 * asks: " before it, it fits in 78 columns. Appends nothing for DOUBT_NONE, or for
 * DOUBT_NAME and DOUBT_FILED, whose words the session has. */
void doubt_words_add(struct strbuf *out, const struct doubt *doubt, const struct reading_key *key,
                     const struct doubt_entry *entry, const struct shop_units *units);

#endif
