/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SHEET_FAULTS_H
#define SILLET_TESTS_SHEET_FAULTS_H

#include <stdbool.h>
#include <stddef.h>

/* What must not stand on a sheet that is handed over unread, looked for in the text of its PDF as
 * poppler's pdftotext lays it out. */

struct sheet_said {
    const char *text;
    bool metric;        /* which of two numbers is in mm */
    const char *secret; /* a word of the shop's notes */
    int works;          /* work lines of the visit */
    bool heard;         /* notes were played and heard */
};

/* The first fault, in words; NULL for none:
 * - a ± in what was done, a plan or the signs of a tech's log in its place, or more of it than was
 *   logged;
 * - a word of the shop's notes;
 * - a state that the numbers above or beside it do not bear out, or that is not good where all is
 *   said to be as wanted;
 * - a last page with fewer than six lines;
 * - notes counted that would buzz, or room to swing, where nobody listened. */
const char *sheet_fault(const struct sheet_said *said, char *memory, size_t size);

/* How many states of the last text were compared with numbers. */
int sheet_fault_states(const struct sheet_said *said);

#endif
