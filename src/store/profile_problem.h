/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROBLEM_H
#define SILLET_STORE_PROFILE_PROBLEM_H

#include <stddef.h>

#include "base/strbuf.h"

/* What is wrong or odd in a profile, line by line, in words that are safe to print. */

enum profile_severity {
    PROBLEM_NOTE,    /* worth a look */
    PROBLEM_WARNING, /* probably not what was meant */
    PROBLEM_ERROR,   /* not understood, impossible, or missing */
};

struct profile_problem {
    int line; /* from 1; 0: the file as a whole */
    enum profile_severity severity;
    char words[200];
};

enum { PROFILE_PROBLEMS_MAX = 1000 };

struct profile_problems {
    struct profile_problem *items;
    size_t count, capacity;
    size_t more;   /* how many were dropped: past the maximum, or for lack of memory */
    size_t errors; /* how many were errors, the dropped ones included */
};

void profile_problems_init(struct profile_problems *problems);
void profile_problems_done(struct profile_problems *problems);

/* Adds one; `problems` may be NULL, which drops it. */
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
void profile_problem_add(struct profile_problems *problems, size_t line,
                         enum profile_severity severity, const char *format, ...);

/* Sorts by line; problems of one line keep their order. */
void profile_problems_sort(struct profile_problems *problems);

/*
 * Room for a shown text: its start, with everything that must not reach a terminal
 * as \xNN, and "..." where it goes on.
 */
struct shown {
    char text[64];
};
struct shown shown_text(const char *text, size_t length);
struct shown shown_string(const char *text);

#endif
