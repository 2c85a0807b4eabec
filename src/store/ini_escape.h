/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_ESCAPE_H
#define SILLET_STORE_INI_ESCAPE_H

#include <stdbool.h>
#include <stddef.h>

#include "store/bytes.h"

/*
 * Texts written as INI values, and read back.
 *
 * A value of letters, digits, ./+-:_,% and inner blanks is written as it is
 * (`relief = .013 in`). Any other value is quoted. Inside the quotes these become %XX, two
 * hexadecimal digits a byte: control characters, `"`, `\`, `;`, `#`, a `'` at the start, a `%`
 * before two hexadecimal digits, bytes that are not UTF-8, and characters that must not reach a
 * terminal, like direction overrides. An inch mark is thus written %22.
 */

/* Bytes of an escaped value in one line; a longer text continues in name.1, name.2 ... */
enum { INI_VALUE_MAX = 800 };

/*
 * Appends as much of text[0..length) as fits in one line, quoted if necessary, and returns
 * how many bytes of it that was. Never splits a character; 0 only if length is 0.
 */
size_t ini_escape(const char *text, size_t length, struct bytes *out);

/*
 * Decodes %XX in place and returns the new length. A `%` without two hexadecimal digits stays.
 * So does %00, because no text can hold a NUL; *ret_zero is then set.
 */
size_t ini_unescape(char *value, bool *ret_zero);

#endif
