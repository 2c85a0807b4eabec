/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_WHAT_IF_STATE_H
#define SILLET_LEAF_STRINGS_WHAT_IF_STATE_H

#include <stdbool.h>

#include "model/survey/survey_what_if.h"

/*
 * A what-if: another tuning, another set, strings tuned up or down, pulls wanted, and what would
 * follow. None of it is in the record.
 */
struct what_if_state {
    const struct tuning *tuning; /* NULL: the record's notes */
    struct string_set set;       /* all zero: the record's strings */
    int all_shift;               /* semitones, on top of the tuning, of all strings */
    int shift[STRINGS_MAX + 1];  /* and on top of that, by string */
    /* By string, the pull that it should have: it is put on in the gauge sold that comes nearest.
     */
    struct maybe pull_n[STRINGS_MAX + 1];

    /* What would follow; what_if_derive keeps it up to date. */
    bool known;
    struct survey_what_if answer;
    struct findings findings;
};

bool what_if_is_on(const struct what_if_state *what_if);

/* Takes another tuning, NULL for the record's notes. What was shifted on top of the one before
 * goes. */
void what_if_set_tuning(struct what_if_state *what_if, const struct tuning *tuning);

/* Tunes one string, or with WHAT_IF_ALL all of them, a semitone up (1) or down (-1); false if that
 * is further than two octaves. */
enum { WHAT_IF_ALL = 0 };
bool what_if_shift(struct what_if_state *what_if, int string, int by);

void what_if_drop(struct what_if_state *what_if);

/* Works out the answer again. Drops a tuning or set for another number of strings. */
void what_if_derive(struct what_if_state *what_if, const struct record *record,
                    const struct derived *derived);

/* Takes another set, whose gauges then are what is asked about: pulls that were wanted go. */
void what_if_set_strings(struct what_if_state *what_if, const struct string_set *set);

/* Whether a pull is wanted of any string, and whether nothing else is asked. */
bool what_if_has_pulls(const struct what_if_state *what_if);
bool what_if_is_of_pulls(const struct what_if_state *what_if);

/* Whether a string would be put on in another gauge for the pull wanted of it. */
bool what_if_changes_gauge(const struct what_if_state *what_if, int string);

/* Appends what the what-if is: "guitar-drop-d, steel-light, all down 1, string 6 down 2, string 5
 * at 24.0 lb"; forces in that unit. */
void what_if_title(const struct what_if_state *what_if, enum unit force, struct strbuf *out);

#endif
