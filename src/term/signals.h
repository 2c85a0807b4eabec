/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_SIGNALS_H
#define SILLET_TERM_SIGNALS_H

#include <stdbool.h>
#include <stddef.h>
#include <termios.h>

#include "base/status.h"

/* Signals of the terminal: handlers only set flags and wake a sleeping poll. */

/* The bytes and modes with which the crash handler restores the terminal. */
struct signals_rescue {
    int fd;
    struct termios modes;
    char bytes[256];
    size_t length;
};

/*
 * Saves the present dispositions and takes over the signals: one that would kill the program
 * now asks it to end. A signal to end or stop that is already ignored stays ignored.
 * STATUS_IO: no pipe.
 */
enum status signals_open(void);

/* Arms the crash handler. SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGSYS and SIGTRAP
 * restore the terminal and then do what they did before signals_open. */
void signals_arm(const struct signals_rescue *rescue);

/* Restores every disposition. Does nothing when not open. */
void signals_close(void);

/* Blocks all signals but crashes, and unblocks them. While blocked they interrupt no wait. */
void signals_hold(void);
void signals_release(void);

/* A descriptor that is readable after a signal has arrived. */
int signals_fd(void);

/* Empties that descriptor; call it before reading the flags. */
void signals_drain(void);

/* Marks the time when output is being sent to the terminal. If that blocks for two seconds after a
 * signal to end, nobody reads it, and the rest is sent to /dev/null. */
void signals_showing(bool showing);

/* If output was cut off like that, does what the crash handler does, through `fd`, another
 * descriptor of the same terminal. Call it when done with the terminal. Else does nothing. */
void signals_rescue_line(int fd);

/* The first signal that asked the program to end; 0 if none has. */
int signals_end(void);

/* True once for each request to stop, and once each time the process was continued. */
bool signals_take_stop(void);
bool signals_take_continued(void);

/* Stops the process, or its whole group as Ctrl-Z does, until it is continued. Returns
 * at once if it cannot stop (no shell there to continue it). */
void signals_stop_now(bool whole_group);

#endif
