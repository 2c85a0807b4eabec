/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_PRINTER_H
#define SILLET_COMMANDS_PRINTER_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

#include "model/finding.h"
#include "model/record_access.h"

/*
 * Writes figures as INI: numbers with nine significant digits, section headings only in
 * front of a first line, so that none stands empty. The stream's errors are the caller's.
 */
struct printer {
    FILE *out;
    char heading[48];
    bool pending; /* the heading is still to be printed */
    bool any;     /* something was printed, so a blank line goes in front of what follows */
};

/* The section that the next lines belong to: "name", "name.first" or "name.first.second",
 * numbers from 1, 0 for none. */
void printer_begin(struct printer *printer, const char *name, int first, int second);

void printer_text(struct printer *printer, const char *key, const char *text);
void printer_number(struct printer *printer, const char *key, double value);

/* The same when it is given. */
void printer_entered(struct printer *printer, const char *key, struct entered value);

/* One of several, by fret or string: "take.7_mm" of "take", 7 and "_mm". */
void printer_number_at(struct printer *printer, const char *name, int at, const char *unit,
                       double value);

/* The frets whose bit is set, "0 3 5"; nothing for an empty set. */
void printer_frets(struct printer *printer, const char *key, uint64_t frets);

/* Comments of their own: "; name: sentence". */
void printer_findings(struct printer *printer, const struct findings *findings);

#endif
