/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_PLAN_TEXT_H
#define SILLET_WORDS_PLAN_TEXT_H

#include <stdbool.h>

#include "model/reading/work_amount.h"
#include "model/reading/work_mark.h"

/*
 * A move that is marked done as planned is logged with the plan's own words: "file +-.001 in;
 * string 6 -.010, 5 -.008". Here such a text is told from what a tech typed, and read back.
 */

/* Whether a work line's amount is in the plan's words. */
bool plan_text_is(enum move_kind kind, const char *amount);

/* The changes by string of such an amount, signed, in mm or turns. WORK_AMOUNT_NONE where it has
 * none. */
void plan_text_find_strings(const char *amount, const struct outfit *outfit,
                            struct work_amount *ret_amount);

#endif
