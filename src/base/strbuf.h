/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_STRBUF_H
#define SILLET_BASE_STRBUF_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/*
 * Builds a text in memory that the caller owns. It never overruns and never
 * allocates: what does not fit is dropped at a (UTF-8) character boundary, `truncated`
 * is set, and nothing more is added until strbuf_clear. The text always ends in NUL.
 */
struct strbuf {
    char *text;
    size_t size; /* bytes in `text`, the terminator included; at least 1 */
    size_t length;
    bool truncated;
};

/* A strbuf over an array, ready for use: struct strbuf b = STRBUF(array); */
#define STRBUF(array) strbuf_over((array), sizeof(array))

struct strbuf strbuf_over(char *memory, size_t size);

void strbuf_clear(struct strbuf *buf);
void strbuf_add(struct strbuf *buf, const char *text);
void strbuf_add_bytes(struct strbuf *buf, const char *bytes, size_t length);
void strbuf_add_char(struct strbuf *buf, char c);

/* printf onto the end. For %s %d %u %zu %c and their widths only; numbers with
 * decimals go through num.h, whose output does not depend on the locale. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void strbuf_addf(struct strbuf *buf, const char *format, ...);

/* A number and what is counted: "1 pass", "2 passes", "0 passes". */
void strbuf_add_count(struct strbuf *buf, size_t count, const char *one, const char *many);

#endif
