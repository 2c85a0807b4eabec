/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_PLAN_TEXT_H
#define SILLET_WORDS_PLAN_TEXT_H

#include <stdbool.h>

#include "model/reading/work_mark.h"

/*
 * A move that is marked done as planned is logged with the plan's own words: "file +-.001 in;
 * string 6 -.010, 5 -.008". Here such a text is told from what a tech typed.
 */

/* Whether a work line's amount is in the plan's words. */
bool plan_text_is(enum move_kind kind, const char *amount);

#endif
