/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_WHAT_IF_STATE_H
#define SILLET_LEAF_STRINGS_WHAT_IF_STATE_H

#include <stdbool.h>

#include "model/survey/survey_what_if.h"

/*
 * A what-if in hand: another tuning, another set, strings tuned up or down, and what would
 * come of it. Nothing of it is in the record.
 */
struct what_if_state {
    const struct tuning *tuning; /* NULL: the record's notes */
    struct string_set set;       /* all zero: the record's strings */
    int shift[STRINGS_MAX + 1];  /* semitones, on top of the tuning, by string */

    /* What follows; what_if_derive keeps it up to date. */
    bool known;
    struct survey_what_if answer;
    struct findings findings;
};

bool what_if_is_on(const struct what_if_state *what_if);

/* The next tuning or set for that many strings; past the last stands none. False when there is none
 * at all. */
bool what_if_step_tuning(struct what_if_state *what_if, int strings);
bool what_if_step_set(struct what_if_state *what_if, int strings);

/* One string a semitone up or down; false at the most that a shift may be. */
bool what_if_shift(struct what_if_state *what_if, int string, int by);

void what_if_drop(struct what_if_state *what_if);

/* Works the answer out anew. A tuning or set for another number of strings is dropped. */
void what_if_derive(struct what_if_state *what_if, const struct record *record,
                    const struct derived *derived);

/* Appends what is asked: "guitar-drop-d, steel-light, string 6 down 2". */
void what_if_title(const struct what_if_state *what_if, struct strbuf *out);

#endif
