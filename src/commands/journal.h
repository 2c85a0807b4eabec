/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_JOURNAL_H
#define SILLET_COMMANDS_JOURNAL_H

#include "commands/report.h"
#include "commands/when.h"
#include "model/reading/journal.h"
#include "store/shelf/shelf.h"

/* What was done to the instruments of a shelf, one after another. */

/* Owns its texts, for the record that they are from is closed. */
struct journal_line {
    enum journal_what what;
    double moment; /* moment.h */
    bool timed;    /* the hour is known, not the day alone */
    int visit, part;
    char *file, *name, *owner, *words, *amount, *note;
};

struct journal {
    struct journal_line *lines; /* in the order of their time */
    size_t count, capacity;
    enum status status;
};

/*
 * Of what has been read of the shelf; only the profiles that were worked on in these days are
 * opened. What it cannot read is reported to `err`, which may be NULL, and is EXIT_FINDINGS; the
 * rest is there all the same. Look at ret_journal->status for STATUS_NO_MEMORY.
 */
enum exit_code journal_collect(const struct shelf *shelf, const struct when *days, FILE *err,
                               struct journal *ret_journal);
void journal_done(struct journal *journal);

/* "came in", "measured", "work"; "10:30", or nothing where only the day is known. */
const char *journal_what(const struct journal_line *line);
void journal_add_time(const struct journal_line *line, struct strbuf *out);

#endif
