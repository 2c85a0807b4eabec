/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_ESCAPE_H
#define SILLET_STORE_INI_ESCAPE_H

#include <stdbool.h>
#include <stddef.h>

#include "store/bytes.h"

/*
 * How a text becomes an INI value and comes back.
 *
 * A value of letters, digits, blanks inside and ./+-:_,% alone stands as it is
 * (`relief = .013 in`). Any other is quoted, and inside the quotes these become %XX (two
 * hexadecimal digits for each byte): control characters, `"`, `\`, `;`, `#`, a `'` at the
 * start, a `%` that two hexadecimal digits follow, bytes that are no UTF-8, and characters
 * that must not reach a terminal (direction overrides and the like). So an inch mark is
 * written %22.
 */

/* Bytes of an escaped value in one line; a longer text goes on in name.1, name.2 ... */
enum { INI_VALUE_MAX = 800 };

/*
 * Appends as much of text[0..length) as fits in one line, quoted where needed, and
 * returns how much that was: never part of a character, never 0 unless length is 0.
 */
size_t ini_escape(const char *text, size_t length, struct bytes *out);

/*
 * Undoes %XX in place and returns the new length. A `%` without two hexadecimal digits
 * behind it stays, and so does %00, for no text can hold it: *ret_zero is then set.
 */
size_t ini_unescape(char *value, bool *ret_zero);

#endif
