/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_CSV_H
#define SILLET_COMMANDS_CSV_H

#include <stdbool.h>
#include <stdio.h>

#include "base/strbuf.h"

/* Tables for a spreadsheet: RFC 4180, CRLF after each record, numbers with a point. */

/* The longest text of a field, in bytes: the longest text of a profile, with every byte replaced by
 * U+FFFD. */
enum { CSV_TEXT_MAX = 3 * 8000 };

/* Appends a text with what must not reach a terminal (controls, invalid UTF-8) as U+FFFD. */
void csv_add_safe(const char *text, struct strbuf *out);

/*
 * Appends a text as a field, quoted if need be. What a spreadsheet would take for a
 * formula gets an apostrophe in front, even after another country's separator within the
 * text; a plain number stays a number.
 */
void csv_add_text(const char *text, struct strbuf *out);

/* Writes records field by field. The caller checks the stream for errors. */
struct csv {
    FILE *out;
    bool begun; /* a field of this record has been written, so the next needs a comma */
};

/* Write a text made safe (NULL is empty); a number with nine significant digits; a count, empty
 * below `least`; an empty field. */
void csv_text(struct csv *csv, const char *text);
void csv_number(struct csv *csv, double value);
void csv_count(struct csv *csv, int value, int least);
void csv_empty(struct csv *csv);

void csv_end_record(struct csv *csv);

#endif
