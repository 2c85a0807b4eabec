/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROBLEM_H
#define SILLET_STORE_PROBLEM_H

#include <stddef.h>

#include "base/strbuf.h"

/* What is wrong or odd in a profile or settings file, line by line, in words safe to print. */

enum problem_severity {
    PROBLEM_NOTE,    /* worth a look */
    PROBLEM_WARNING, /* probably a mistake */
    PROBLEM_ERROR,   /* not understood, impossible, or missing */
};

struct problem {
    int line; /* from 1; 0: the whole file */
    enum problem_severity severity;
    char words[200];
};

enum { PROBLEMS_MAX = 1000 };

struct problems {
    struct problem *items;
    size_t count, capacity;
    size_t more;   /* how many were dropped, over the maximum or for lack of memory */
    size_t errors; /* how many were errors, including dropped ones */
};

void problems_init(struct problems *problems);
void problems_done(struct problems *problems);

/* Adds one. Does nothing if `problems` is NULL. */
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
void problem_add(struct problems *problems, size_t line, enum problem_severity severity,
                 const char *format, ...);

/* Sorts by line; problems in one line keep their order. */
void problems_sort(struct problems *problems);

/*
 * The start of a text, safe to print: what must not reach a terminal is written as \xNN, and
 * "..." follows if the text is longer.
 */
struct shown {
    char text[64];
};
struct shown shown_text(const char *text, size_t length);
struct shown shown_string(const char *text);

#endif
