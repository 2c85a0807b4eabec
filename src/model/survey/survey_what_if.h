/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SURVEY_WHAT_IF_H
#define SILLET_MODEL_SURVEY_SURVEY_WHAT_IF_H

#include <stdbool.h>

#include "model/derive/derive.h"
#include "model/reading/record_access.h"
#include "model/strings/gauge_sold.h"
#include "model/strings/string_set.h"
#include "model/survey/survey_pull.h"
#include "model/reading/tuning.h"

/*
 * Another tuning, another set of strings, or the gauges sold for pulls that are wanted, on the
 * instrument as it stands: what each string and the neck would have to hold.
 */

/* More than this times what the neck carries now is worth a warning (common practice, no
 * published source). */
#define WHAT_IF_FAR_ABOVE 1.15

/* The most that a shift may be, semitones either way. */
#define WHAT_IF_SHIFT_MAX 24.0

struct what_if_change {
    bool has_notes, has_set;
    struct string_notes notes;                      /* other notes, else those of the record */
    double shift_semitones;                         /* on top of them */
    double string_shift_semitones[STRINGS_MAX + 1]; /* and on top of that, by string */
    struct string_set set;                          /* other strings, else those of the record */
    /* By string, the pull wanted of it: it is put on in the gauge sold that comes nearest, made
     * like the one that it replaces. The gauge that is on stays where it comes as near. */
    struct maybe pull_n[STRINGS_MAX + 1];
};

/* One string; what hangs on something unknown is absent. */
struct what_if_answer {
    struct maybe semitone; /* what it would be tuned to; may have a fraction */
    /* Where a pull is wanted: whether a gauge sold comes near it (else why not, and the string
     * stays as it is), which, and whether that is another one than is on. */
    enum status sold_status;
    struct gauge_sold sold;
    bool other_gauge;
    struct maybe before_n, after_n;
    struct maybe share_of_total; /* of what all strings would pull */
    struct maybe stress_share;   /* of its core's strength, afterwards */
};

struct survey_what_if {
    int strings;
    const struct tuning
        *tuning; /* the other notes asked for, where the table names them; else NULL */
    struct what_if_answer string[STRINGS_MAX + 1];
    struct maybe total_before_n, total_after_n;
    /* What the pull alone bends the neck by (rod slack), where the neck's measures are known. */
    struct maybe relief_predicted_before_mm, relief_predicted_after_mm;
    struct survey_pull pull; /* what to expect of relief and action */
};

/*
 * STATUS_ABSENT without a board, STATUS_DOMAIN when the tuning or set is for another number
 * of strings or a shift is beyond WHAT_IF_SHIFT_MAX. `findings` names strings near their
 * strength and a total far above what the neck carries.
 */
enum status survey_what_if(const struct record *record, const struct derived *derived,
                           const struct what_if_change *change, struct survey_what_if *ret_what_if,
                           struct findings *findings);

/* Appends the name of the note that a string would be tuned to: as a tuning with all these notes
 * spells it, else as the tuning asked for or the record does where the string keeps that note, else
 * with the accidentals that they use. False, nothing appended, where the note is not known or lies
 * between two. */
bool survey_what_if_add_note(const struct record *record, const struct survey_what_if *what_if,
                             int string, struct strbuf *out);

#endif
