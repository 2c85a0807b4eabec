/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_KIND_WORDS_H
#define SILLET_WORDS_KIND_WORDS_H

#include "base/strbuf.h"
#include "model/reading/record.h"

/* Appends what kind of instrument it is as a tech says it: "steel-string guitar", "twelve-string
 * guitar", "fretless five-string bass". Nothing where no kind is entered, or another one. */
void kind_words_add(const struct record *record, struct strbuf *out);

#endif
