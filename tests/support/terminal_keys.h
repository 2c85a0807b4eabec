/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TERMINAL_KEYS_H
#define SILLET_TESTS_TERMINAL_KEYS_H

#include <stdbool.h>
#include <stddef.h>

#include "terminal.h"

/* How a terminal spells its keys. */

/* Whether there is a terminfo entry of that name on this machine. */
bool terminal_keys_known(const char *term);

/* The bytes that the key sends after the program has asked for application mode. */
void terminal_keys_spell(const char *term, enum terminal_key key, char *out, size_t size);

/* The last byte of ESC O x for a number-pad key; '?' if there is none. */
char terminal_keys_pad(char plain);

#endif
