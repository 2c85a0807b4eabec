/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_UTF8_H
#define SILLET_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/strbuf.h"

/* Strict UTF-8: no overlong forms, no surrogates, nothing above U+10FFFF. */

enum { UTF8_REPLACEMENT = 0xFFFD };

/*
 * Decodes one character at text[0..length). Returns how many bytes it took (1 to 4) and
 * the character in *ret_rune; a byte that does not start a valid character takes 1 and gives
 * UTF8_REPLACEMENT with *ret_valid false. length 0 returns 0, outputs untouched.
 * ret_valid may be NULL.
 */
size_t utf8_decode(const char *text, size_t length, uint32_t *ret_rune, bool *ret_valid);

/* Writes a character as 1 to 4 bytes, no terminator; returns how many. Anything that is not a
 * character is written as U+FFFD. */
size_t utf8_encode(uint32_t rune, char out[4]);

/* Whether the whole text is valid. */
bool utf8_valid(const char *text, size_t length);

/*
 * Columns a character takes on a terminal: 0 for combining marks and other invisible
 * ones, 2 for wide ones (East Asian wide, emoji), 1 otherwise (the soft hyphen too, which
 * terminals show). Uses its own table, so that the answer does not depend on the
 * locale. Control characters (C0, DEL, C1): -1.
 */
int utf8_width(uint32_t rune);

/*
 * True for what must not be sent to a terminal as data: C0 and C1 controls, DEL, every mark
 * that changes the direction of text (implicit, embedding, override, isolate) or its shaping, line
 * and paragraph separators, the BOM, tag characters, noncharacters, and numbers that are not
 * characters.
 */
bool utf8_unsafe(uint32_t rune);

/* How many printable ASCII characters the text begins with: each a byte, a column, and safe. */
size_t utf8_plain_length(const char *text);

/* Columns of a text. An unsafe or invalid character counts as one, for its replacement. */
int utf8_columns(const char *text);

/* Bytes of the longest prefix of `text` that fits in `columns`, with its combining marks,
 * counted as utf8_columns counts; 0 for negative columns. */
size_t utf8_clip(const char *text, int columns);

/* Bytes of the next line of a text: as many words, separated by blanks, as fit in `columns`. A
 * word that is too long on its own is cut. 0 if not even one character fits. */
size_t utf8_line(const char *text, int columns);

/* Appends the text in ASCII: the program's own signs (plus-minus, middle dot, fractions) are
 * spelled out; any other character becomes one '?' for each of its columns. */
void utf8_add_ascii(struct strbuf *out, const char *text);

/* Appends the text as it is searched for: in small letters, Latin ones without accents, so that
 * "Seance" is found as it is and with its accents; "ae", "oe", "ss", "th" for letters that stand for
 * two. Accents that are characters of their own are dropped. */
void utf8_add_folded(struct strbuf *out, const char *text);

#endif
