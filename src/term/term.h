/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_TERM_H
#define SILLET_TERM_TERM_H

#include <stdbool.h>

#include "session/event.h"
#include "base/status.h"
#include "draw/frame.h"

/*
 * The terminal: the only place that knows curses, and the only one with global mutable
 * state (curses itself and the signal flags). Start it once, stop it on every way out.
 */

struct term_traits {
    int rows, columns;
    bool utf8;   /* box drawing, braille and fractions may be used */
    int colours; /* 0 (mono), 8 or 256 */
};

/*
 * Takes the terminal over: raw mode, alternate screen, keypad decoding, signal handlers
 * for SIGHUP, SIGTERM, SIGINT, SIGQUIT (a flag, read by term_wait), SIGWINCH, and for
 * crashes a handler that gives the terminal back before the signal is delivered again.
 * NO_COLOR in the environment means mono. STATUS_NOT_FOUND: TERM names no terminal known
 * here; STATUS_DOMAIN: one that cannot address the cursor; STATUS_IO: no terminal at all.
 * *ret_reason (never NULL on failure) is a sentence for the person.
 */
enum status term_start(const char **ret_reason);

/* Gives the terminal back as it was. Harmless when not started or called twice. */
void term_stop(void);

/* The size and abilities right now. */
struct term_traits term_traits(void);

/*
 * Waits for the next event, at most timeout_ms (negative: until something happens).
 * Never loses a key to a resize; answers EVENT_HANGUP again and again once the terminal
 * is gone. Undecodable bytes come as SILLET_KEY_UNKNOWN, never swallow what follows.
 */
struct event term_wait(int timeout_ms);

/* The number of the signal that asked to end, 0 when none did (then: terminal gone). */
int term_end_signal(void);

/* Shows a frame: sends only what differs from the last. A frame of another size than the
 * terminal is clipped. */
void term_show(const struct frame *frame);

/* Paints everything anew at the next term_show. */
void term_repaint(void);

/* Stops the process like Ctrl-Z does and comes back with EVENT_RESUME. */
void term_suspend(void);

#endif
