/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_DECODE_H
#define SILLET_TERM_DECODE_H

#include <stdbool.h>
#include <stdint.h>

/* Turns what the terminal sends into the key numbers of session/event.h. Curses must be running. */

/* Teaches curses the sequences that terminfo entries lack, and drops any codes given back. */
void decode_open(void);

/* The next key that has already arrived; false if none has. Call it with the signals held: see
 * term.c. */
bool decode_next(uint32_t *ret_key);

#endif
