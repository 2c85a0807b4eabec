/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TIMED_H
#define SILLET_TESTS_TIMED_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

/*
 * Programs with a stopwatch: one on a pseudo-terminal whose painting is timed byte by byte, or one
 * whose whole run is timed. Times are in ms. What goes wrong ends the benchmark with a message.
 */
struct timed {
    int line; /* our end of the pseudo-terminal */
    pid_t pid;
    double started_ms;
    double first_ms; /* from the start until it had painted the text */
    double last_ms;  /* until it rested: the last byte before that */
};

/* What followed a key. */
struct painted {
    double first_ms, last_ms; /* from the key to the first and the last byte */
    double bytes, writes;     /* sent, and system calls that wrote, whatever file it was */
};

double timed_now_ms(void);

/* Starts it on a screen of 80x24 and waits until it has painted `text`, then until it rests. */
struct timed timed_start(const char *const *argv, const char *text);

/* The same without waiting until it rests. */
struct timed timed_begin(const char *const *argv, const char *text);

/* How long after its start a running program painted the text; or until it rested, if it never did.
 */
double timed_until(struct timed *timed, const char *text);

/* How long after a key the first byte came, of a program that need not rest: it may be one that was
 * on its way before the key. */
double timed_reply(struct timed *timed, const char *key);

/* Sends a key and waits until the program rests again. */
struct painted timed_key(struct timed *timed, const char *key);

/* How often the program was woken in so many ms without a key. */
long timed_wake_ups(struct timed *timed, int ms);

void timed_stop(struct timed *timed);

/* How long a command takes, its output thrown away; negative if it says that it is used wrongly. */
double timed_run(const char *const *argv);

#endif
