/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_WORK_LINE_H
#define SILLET_MODEL_READING_WORK_LINE_H

#include "model/reading/record.h"

/* A visit's work lines: what was done, by how much, a note, and when. */

enum work_column { WORK_KIND, WORK_AMOUNT, WORK_NOTE, WORK_TIME, WORK_COLUMN_COUNT_ };

struct reading_key work_key(enum work_column column, int visit, int line);

/* The kind of a line that says which strings were put on. */
#define WORK_RESTRUNG "restrung"
/* And of one that says how they were tuned from then on. */
#define WORK_RETUNED "retuned"
#define WORK_SHIM    "pocket shim " /* in a reset's amount, before its thickness */

/* What the program logs is read again by these words: of a fret that was rocked, or a mark tried,
 * and not found high; */
#define WORK_ROCKED   "rocked "
#define WORK_TRIED    "tried "
#define WORK_NOT_HIGH ": not high"
/* and of what lifts all strings at once. */
#define WORK_RAISE_NUT "raise the nut"
#define WORK_ZERO_FRET "put in a zero fret"
/* In a row of amounts by string, these stand for strings that were given none. */
#define WORK_STRING_AGAIN "again"
#define WORK_STRING_READ  "read"
#define WORK_STRING_OK    "ok"
#define WORK_STRING_NEAR  "near"
#define WORK_STRING_LOW   "low"
#define WORK_STRING_HIGH  "high"

/* Whether a kind is one of these: the neck bends anew, and nothing read before holds. */
bool work_line_is_strings(const char *kind);

/* What stands in one of its columns, "" for nothing. Valid until the record changes. */
const char *work_line_text(const struct record *record, enum work_column column, int visit,
                           int line);

/* Whether a work line has any reading. */
bool work_line_exists(const struct record *record, int visit, int line);

#endif
