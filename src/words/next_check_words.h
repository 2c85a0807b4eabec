/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_NEXT_CHECK_WORDS_H
#define SILLET_WORDS_NEXT_CHECK_WORDS_H

#include "base/strbuf.h"
#include "model/survey/next_check.h"

/* "in about 8 weeks (4 to 18)", "in a year", "not known yet". */
void next_check_words_when(const struct next_check *check, struct strbuf *out);

/* The reason, to go on after a colon and without a point at its end. */
void next_check_words_why(const struct next_check *check, struct strbuf *out);

#endif
