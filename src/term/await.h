/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_AWAIT_H
#define SILLET_TERM_AWAIT_H

#include <stdbool.h>

/* Sleeping until the terminal has something to say, and telling when it is gone for good. Reading
 * what it says is not part of this. */

/* A terminal that was just started. */
void await_begin(void);

/* A time to sleep until. */
struct await_deadline {
    bool never;
    long long at_ms;
};

/* From now on; negative for never. */
struct await_deadline await_deadline(int timeout_ms);

/* Sleeps until input, a signal or the deadline; false for the deadline. */
bool await_something(const struct await_deadline *deadline);

/* To be called for each key that was read. */
void await_heard(void);

/* Whether the terminal is gone: nothing can be read or shown any more. */
bool await_is_gone(void);

#endif
