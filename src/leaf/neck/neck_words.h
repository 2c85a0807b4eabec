/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_NECK_NECK_WORDS_H
#define SILLET_LEAF_NECK_NECK_WORDS_H

#include "model/derive/derive.h"

/* Words for the Neck leaf. */

/* Appends what to measure next for the figures that are missing; nothing if none is missing. */
void neck_words_next(const struct derived *derived, struct strbuf *out);

/* What is too thin or too weak, else a caution for the work that a reading belongs to. */
const char *neck_words_caution(const struct derived *derived, enum field_id field);

/* Whether the saddle is enough or the neck has to be reset; "" if not known. */
const char *neck_words_verdict(enum reset_verdict verdict);

#endif
