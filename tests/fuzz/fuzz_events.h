/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_FUZZ_EVENTS_H
#define SILLET_TESTS_FUZZ_EVENTS_H

#include <stdbool.h>

#include "session/event.h"
#include "fuzz.h"

/* The screen that is composed after each event. */
struct fuzz_screen {
    int rows, columns;
    bool utf8;
};

/*
 * Bytes as events, so that a text typed at the program is a seed as it is: ASCII characters
 * are themselves. 0x80 and up are the keys of enum key, then any character of three bytes,
 * a size of two bytes, UTF-8 or not, and the events that are no keys.
 */
struct event fuzz_event(struct fuzz_bytes *bytes, struct fuzz_screen *screen);

#endif
