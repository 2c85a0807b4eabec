/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_JOURNAL_H
#define SILLET_MODEL_READING_JOURNAL_H

#include "model/reading/record.h"

/*
 * What was done to an instrument, as entries of a diary: a visit begun, a pass measured, a line of
 * work, an instrument handed over, which is the last of its day.
 */
enum journal_what { JOURNAL_VISIT, JOURNAL_PASS, JOURNAL_WORK, JOURNAL_OVER };

struct journal_entry {
    enum journal_what what;
    double moment; /* days since the first of March of the year 0, with their fraction (moment.h) */
    bool timed;    /* the hour is known, not the day alone */
    int visit, part;
    /* A visit's reason; a pass's label; the work and its amount. "" for none; the record's own. */
    const char *words, *amount, *note;
};

/* Later than any day that a record can have. */
#define JOURNAL_END 1e7

typedef void journal_take(void *taker, const struct journal_entry *entry);

/* By field, the readings that a walk asks for. */
void journal_fields(bool ret_wanted[FIELD_COUNT_]);

/* Gives every entry with `first` <= moment < `end` to `take`, visit by visit. What has no date
 * belongs to no day and is left out. */
void journal_walk(const struct record *record, double first, double end, journal_take *take,
                  void *taker);

#endif
