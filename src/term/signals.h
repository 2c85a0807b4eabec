/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_SIGNALS_H
#define SILLET_TERM_SIGNALS_H

#include <stdbool.h>
#include <stddef.h>
#include <termios.h>

#include "base/status.h"

/* Signals of the terminal: handlers only set flags and wake a sleeping poll. */

/* What the crash handler sends and sets to give the terminal back. */
struct signals_rescue {
    int fd;
    struct termios modes;
    char bytes[256];
    size_t length;
};

/*
 * Remembers the dispositions found and takes the signals over: every one that would end the
 * program asks it to end. One that asks it to end or stop and is ignored already stays ignored.
 * STATUS_IO: no pipe.
 */
enum status signals_open(void);

/* Arms the crash handler. SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGSYS and SIGTRAP
 * give the terminal back and then do what they did before signals_open. */
void signals_arm(const struct signals_rescue *rescue);

/* Puts every disposition back. Harmless when not open. */
void signals_close(void);

/* Holds all but crashes back, and lets them come again. While held no wait is broken off. */
void signals_hold(void);
void signals_release(void);

/* A descriptor that is readable while a signal waits to be looked at. */
int signals_fd(void);

/* Empties that descriptor; call before looking at the flags. */
void signals_drain(void);

/* Says that something is being sent to the terminal. Where that blocks for two seconds after a
 * signal that asked the program to end, nobody reads it: what is sent then goes nowhere. */
void signals_showing(bool showing);

/* After that, when the program is done with the terminal: what the crash handler does, by way
 * of another descriptor of the same line. Does nothing otherwise. */
void signals_rescue_line(int fd);

/* The first signal that asked the program to end; 0 when none did. */
int signals_end(void);

/* True once for each request to stop, and once each time the process was continued. */
bool signals_take_stop(void);
bool signals_take_continued(void);

/* Stops the process, or its whole group as Ctrl-Z does, until it is continued. Returns
 * at once where it cannot stop (nobody there to continue it). */
void signals_stop_now(bool whole_group);

#endif
