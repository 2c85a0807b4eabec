/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_QUESTION_H
#define SILLET_LEAF_STRINGS_QUESTION_H

#include "session/turn.h"

/*
 * Asks for a tuning or a set by name, or for a pull (pull_question.h), for the what-if of the
 * Strings leaf. While it is open, the entry line and the list above it belong to the question, and
 * the name or pull in hand is put into the what-if at once. Enter leaves it there, Esc puts back
 * what was there before. The record is not touched.
 */

/* The commands TUNING_NAMED, SET_NAMED and PULL_WANTED. */
void question_ask_tuning(struct turn *turn);
void question_ask_set(struct turn *turn);
void question_ask_pull(struct turn *turn);

#endif
