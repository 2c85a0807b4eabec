/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PROBE_H
#define SILLET_TESTS_PROBE_H

#include <stdbool.h>
#include <stdint.h>

#include "session/event.h"
#include "terminal.h"

/* Shared by the tests of src/term: they run term_probe.c and read what it shows. */

/* A text that holds one control key. */
#define CTRL(letter) ((const char[]){(char)SILLET_KEY_CTRL(letter), '\0'})

/* A test whose terminal is stopped, also when it fails. */
#define PROBE_CASE(function) cmocka_unit_test_teardown(function, probe_tear_down)

enum { PROBE_TERMS = 7 };
extern const char *const probe_terms[PROBE_TERMS];

/* The path of term_probe, from the command line. */
const char *probe_path(void);

/* Takes the command line; false, with a message, when the path is not there. */
bool probe_set_up(int argc, char **argv);
int probe_tear_down(void **state);

/* Start a program in place of the last one: any, the probe, the probe until it shows its
 * first frame. */
struct terminal *probe_start_argv(const char *const *argv, struct terminal_setup setup);
struct terminal *probe_start_with(struct terminal_setup setup);
struct terminal *probe_start(const char *term);

/* True, and says so loudly, when there is no terminfo entry of that name here. */
bool probe_skips(const char *term);

/* The log must become exactly this, after what was fed; then it is cleared. */
void probe_expect_log(struct terminal *terminal, const char *want);

void probe_expect_size(struct terminal *terminal, int rows, int columns);
void probe_expect_row(struct terminal *terminal, int row, const char *want);

/* Cursor shown, main screen, line modes as they were. */
void probe_expect_restored(struct terminal *terminal);

/* Seconds on a clock that only goes forward. */
double probe_now_s(void);

#endif
