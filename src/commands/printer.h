/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_PRINTER_H
#define SILLET_COMMANDS_PRINTER_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

#include "model/reading/finding.h"
#include "model/reading/record_access.h"

/*
 * Writes figures as INI: numbers with nine significant digits, a section heading only
 * with its first line, so that no section is empty. The caller checks the stream for errors.
 */
struct printer {
    FILE *out;
    char heading[48];
    bool pending; /* the heading is still to be printed */
    bool any;     /* something was printed, so a blank line goes before the next section */
};

/* Begins the section of the next lines: "name", "name.first" or "name.first.second",
 * numbers from 1, 0 for none. */
void printer_begin(struct printer *printer, const char *name, int first, int second);

void printer_text(struct printer *printer, const char *key, const char *text);
void printer_number(struct printer *printer, const char *key, double value);

/* The same, if the value is given. */
void printer_entered(struct printer *printer, const char *key, struct maybe value);

/* The value for one fret or string: "take.7_mm" from "take", 7 and "_mm". */
void printer_number_at(struct printer *printer, const char *name, int at, const char *unit,
                       double value);

/* The frets whose bit is set, "0 3 5"; nothing for an empty set. */
void printer_frets(struct printer *printer, const char *key, uint64_t frets);

/* Begins what is printed of one of several files: a section that names it. */
void printer_file(struct printer *printer, const char *path);

/* The findings as comments: "; name: sentence". */
void printer_findings(struct printer *printer, const struct findings *findings);

#endif
