/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_TERM_H
#define SILLET_TERM_TERM_H

#include <stdbool.h>

#include "session/event.h"
#include "base/status.h"
#include "draw/frame.h"

/*
 * The terminal: the only folder that uses curses, and the only one with global mutable
 * state (curses itself and the signal flags). Start it once, and stop it on every way out.
 */

struct term_traits {
    int rows, columns;
    bool utf8;   /* box drawing, braille and fractions may be used */
    int colours; /* 0 (mono), 8 or 256 */
};

/*
 * Takes over the terminal: raw mode, alternate screen, keypad decoding, and handlers for every
 * signal that would end the program (they set a flag, read by term_wait), for SIGWINCH, and for
 * crashes, where the terminal is restored before the signal is delivered again.
 * NO_COLOR in the environment means mono. STATUS_NOT_FOUND: TERM names a terminal unknown
 * here; STATUS_DOMAIN: one that cannot address the cursor; STATUS_IO: no terminal at all.
 * On failure *ret_reason is a sentence for the user, never NULL.
 */
enum status term_start(const char **ret_reason);

/* Restores the terminal. Does nothing when not started or called twice. */
void term_stop(void);

/* The size and abilities right now. */
struct term_traits term_traits(void);

/*
 * Waits for the next event, at most timeout_ms (negative: until something happens).
 * Never loses a key to a resize. Once the terminal is gone, or a signal asked the program to end,
 * every call returns EVENT_HANGUP. Undecodable bytes become SILLET_KEY_UNKNOWN and never swallow
 * what follows.
 */
struct event term_wait(int timeout_ms);

/* The signal that asked the program to end; 0 if none did, so that the terminal is gone. */
int term_end_signal(void);

/* Shows a frame: sends only what differs from the last one. A frame larger than the
 * terminal is clipped. */
void term_show(const struct frame *frame);

/* Repaints everything at the next term_show. */
void term_repaint(void);

/* Stops the process like Ctrl-Z does and comes back with EVENT_RESUME. */
void term_suspend(void);

#endif
