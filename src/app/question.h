/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_QUESTION_H
#define SILLET_APP_QUESTION_H

#include "app/app_inside.h"

/*
 * A tuning or a set asked for by its name, for the what-if of the strings leaf. The entry line and
 * the list over it are the question's while it is open; the one in hand stands in the what-if at
 * once. Enter leaves it there, Esc puts back what was there before. The record has no part in it.
 */

/* The commands of the same names. */
void question_ask_tuning(struct turn *turn);
void question_ask_set(struct turn *turn);

/* Looks at what is typed as an answer: what app_refresh_entry does while a question is open. */
void question_look(struct app *app);

/* A key while a question is open; true where that is all there is to do with it. */
bool question_take_key(struct turn *turn, uint32_t key);

#endif
