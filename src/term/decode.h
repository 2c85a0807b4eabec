/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TERM_DECODE_H
#define SILLET_TERM_DECODE_H

#include <stdbool.h>
#include <stdint.h>

/* Keys: what the terminal sends, to the numbers of app/event.h. Curses must be running. */

/* Teaches curses the sequences that terminfo entries lack; forgets what was half read. */
void decode_open(void);

/* The next key that has arrived, without waiting for one to be pressed. False: none. Hold
 * the signals meanwhile: see term.c. */
bool decode_next(uint32_t *ret_key);

#endif
