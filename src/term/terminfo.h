/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_TERMINFO_H
#define SILLET_TERM_TERMINFO_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/* What the terminal's terminfo entry says. */

/*
 * The name to start curses with: TERM if it is known here, else a usual one. Sends
 * nothing. STATUS_NOT_FOUND: neither is known; STATUS_DOMAIN: TERM cannot address the
 * cursor.
 */
enum status terminfo_choose(const char **ret_name);

/* Turns bracketed paste on or off; curses must be running. */
void terminfo_mark_pastes(bool on);

/* Writes the bytes that restore the terminal after a crash to `out`; curses must be running.
 * Returns their number, at most `size`. */
size_t terminfo_rescue(char *out, size_t size);

#endif
