/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_SESSION_H
#define SILLET_TESTS_BENCH_SESSION_H

#include "session/app.h"

/* Sessions for tests, with a clock that stands still, and keys written as text. */

/* 2026-03-02, 10:42. */
extern const struct app_clock bench_clock;

/* Starts a session on a record written as for build_record, with inch gauges. The caller ends it
 * with app_done. */
void bench_start(struct app *app, const char *lines);

/* The same on an existing record, which it takes over. */
void bench_start_record(struct app *app, struct record *record, bool metric, bool read_only);

/* Allocates and starts a session on `lines` and `more`, on the given leaf. End it with
 * bench_close. */
struct app *bench_open(const char *lines, const char *more, enum leaf leaf);
void bench_close(struct app *app);

/* For cmocka: the state is a session on the full record. */
int bench_setup(void **state);
int bench_teardown(void **state);

/* One key. */
struct app_effects bench_key(struct app *app, uint32_t key);

/*
 * Presses keys: every character is itself, except names in braces, as "13{Enter}7/64{Down}":
 * Enter Back Del Esc Tab Up Down Left Right Home End PgUp PgDn ShiftTab Unknown, and ^L for Ctrl-L.
 * Returns the combined effects of the keys. An unknown name fails the test.
 */
struct app_effects bench_press(struct app *app, const char *keys);

/* The same at another time. */
struct app_effects bench_press_at(struct app *app, const char *keys, const struct app_clock *clock);

/* The record's text of "section key"; NULL if there is none. */
const char *bench_text(const struct app *app, const char *line);

#endif
