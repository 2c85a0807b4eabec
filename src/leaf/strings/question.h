/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_QUESTION_H
#define SILLET_LEAF_STRINGS_QUESTION_H

#include "session/turn.h"

/*
 * A tuning or a set asked for by its name, for the what-if of the strings leaf. The entry line and
 * the list over it are the question's while it is open; the one in hand stands in the what-if at
 * once. Enter leaves it there, Esc puts back what was there before. The record has no part in it.
 */

/* The commands of the same names. */
void question_ask_tuning(struct turn *turn);
void question_ask_set(struct turn *turn);

#endif
