/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_TEXT_H
#define SILLET_STORE_INI_TEXT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * An INI file as its lines, every byte kept: comments, blank lines, order, unknown keys. Where a
 * value stands is known here; what it is, only iniparser says (ini_read.h).
 *
 *   - Lines end in LF or CRLF; the last one may end in nothing. Each keeps its own end.
 *   - Byte order marks at the start are stepped over (`start`) and dropped on rewriting.
 *   - `; ...` and `# ...` are comments, also after a section's `]` and, outside quotes,
 *     in the middle of a value.
 *   - A line that ends in a backslash goes on in the next one, unless that one is blank,
 *     a comment, a section or has a `=` of its own, or there is none: the backslash then
 *     belongs to the value (`final_backslash`), so that no key is ever swallowed.
 *   - Names are compared in lower case. One that is longer than INI_NAME_MAX or holds
 *     anything but a-z 0-9 _ . - is kept as a line but has no name (NULL). What stands under a
 * section line that cannot be understood belongs to no section, never to the one before it.
 *   - Any other line is junk: kept, and never looked at.
 */
enum {
    INI_LINE_MAX = 1022,    /* bytes before the line's end; iniparser's own limit */
    INI_NAME_MAX = 200,     /* iniparser looks no further than 1024 for both names */
    INI_LINES_MAX = 500000, /* a hundred bytes of memory each, also of a file that means harm */
};

enum ini_kind { INI_BLANK, INI_COMMENT, INI_SECTION, INI_KEY, INI_CONTINUATION, INI_JUNK };

struct ini_line {
    enum ini_kind kind;
    const char *bytes; /* without the line's end; not terminated */
    size_t length;
    size_t end_length; /* 0, 1 or 2 */
    size_t section;    /* index into sections; 0 before any */
    const char *name;  /* of a section or key, lower case; NULL: not usable */
    /* Of a key, its continuation lines joined: */
    const char *logical;  /* the line up to its last visible byte; terminated */
    size_t value_at;      /* where the value starts in it, behind "=" and blanks */
    size_t rest_at;       /* where the value is over: blanks and a comment may follow */
    size_t continuations; /* how many lines follow that belong to it */
    bool final_backslash; /* the value's own, not a join */
};

struct ini_section {
    const char *name; /* lower case; NULL for index 0 and for one that is not usable */
    size_t line;      /* its line's index */
};

struct ini_text {
    struct bytes bytes; /* as in the file */
    size_t start;       /* behind its byte order marks */
    struct ini_line *lines;
    size_t line_count;
    struct ini_section *sections; /* at least one: what stands before any section */
    size_t section_count;
    char *arena;
};

struct ini_fault {
    size_t line; /* from 1 */
    const char *words;
};

/*
 * Takes the bytes over on success (they are initialised anew), leaves them alone
 * otherwise. STATUS_BINARY for a NUL, STATUS_TOO_LONG for a line over INI_LINE_MAX,
 * STATUS_TOO_LARGE for more than INI_LINES_MAX lines, *ret_fault then says where;
 * STATUS_NO_MEMORY.
 */
enum status ini_text_parse(struct bytes *bytes, struct ini_text *ret_text,
                           struct ini_fault *ret_fault);
void ini_text_done(struct ini_text *text);

/* The last section of that name; 0 when there is none. */
size_t ini_text_section(const struct ini_text *text, const char *name);

/* The end that lines of this text have: the first line's, LF when there is none. */
const char *ini_text_line_end(const struct ini_text *text);

/* True for a byte that iniparser takes as a blank. */
bool ini_is_blank(char c);

#endif
