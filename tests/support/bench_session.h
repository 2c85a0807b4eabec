/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_BENCH_SESSION_H
#define SILLET_TESTS_BENCH_SESSION_H

#include "session/app.h"

/* Sessions for tests, at a clock that stands still, and keys written as a text. */

/* 2026-03-02, 10:42. */
extern const struct app_clock bench_clock;

/* A session on a record written as build_record takes it; inch gauges. The caller ends it
 * with app_done. */
void bench_start(struct app *app, const char *lines);

/* The same on a record that is there already, which it takes over. */
void bench_start_record(struct app *app, struct record *record, bool metric, bool read_only);

/* A session of its own, on lines and more lines, with a leaf turned to; ended by bench_close. */
struct app *bench_open(const char *lines, const char *more, enum leaf leaf);
void bench_close(struct app *app);

/* One key. */
struct app_effects bench_key(struct app *app, uint32_t key);

/*
 * Presses keys: every character is itself, but these in braces, as "13{Enter}7/64{Down}":
 * Enter Back Del Esc Tab Up Down Left Right Home End PgUp PgDn ShiftTab Unknown, and ^L for Ctrl-L.
 * What the keys asked for, all together. A name that is none fails the test.
 */
struct app_effects bench_press(struct app *app, const char *keys);

/* The same at another time. */
struct app_effects bench_press_at(struct app *app, const char *keys, const struct app_clock *clock);

/* The kept text of "section key"; NULL when there is none. */
const char *bench_text(const struct app *app, const char *line);

#endif
