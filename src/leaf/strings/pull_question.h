/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_PULL_QUESTION_H
#define SILLET_LEAF_STRINGS_PULL_QUESTION_H

#include "session/turn.h"

/*
 * The pull that is asked for in the what-if of the Strings leaf (question.h): a force, and what is
 * to have it. Each string is then put on in the gauge sold that comes nearest. With nothing typed,
 * all strings together keep what they pull now, whatever they are tuned to.
 */

/* What a pull is asked for; + and - step through them. */
enum pull_of {
    PULL_OF_STRING, /* the string in hand */
    PULL_OF_EACH,   /* every string the same */
    PULL_OF_EVEN,   /* all together, every string the same */
    PULL_OF_SHARES, /* all together, each with its share of what they pull now */
    PULL_OF_COUNT_
};

/* Reads the entry and puts the pulls into the what-if. */
void pull_question_look(struct app *app);

/* Steps to the next thing that a pull can be asked for, or the one before; false for another key.
 */
bool pull_question_step(struct turn *turn, uint32_t key);

void pull_question_add_prompt(const struct app *app, struct strbuf *out);
void pull_question_add_hint(const struct app *app, struct strbuf *out);

#endif
