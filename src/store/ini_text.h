/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_TEXT_H
#define SILLET_STORE_INI_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * An INI file as its lines. Every byte is kept: comments, blank lines, order, unknown keys. This
 * file knows where each value is; iniparser decides what it is (ini_read.h).
 *
 *   - Lines end in LF or CRLF; the last one may have no end. Each keeps its own.
 *   - Byte order marks at the start are skipped (`start`) and dropped on rewriting.
 *   - `; ...` and `# ...` are comments, also after a section's `]` and, outside quotes, after
 *     the start of a value.
 *   - A line that ends in a backslash continues in the next one. If the next line is blank, a
 *     comment, a section, or has a `=` of its own, or if there is none, the backslash belongs to
 *     the value (`final_backslash`), so that no key is ever swallowed.
 *   - Names are compared in lower case. A name that is longer than INI_NAME_MAX or holds
 *     anything but a-z 0-9 _ . - is not usable: the line is kept, its name is NULL.
 *   - The lines under a section line that is not understood belong to no section, never to the
 *     one before.
 *   - Any other line is junk: kept and never used.
 */
enum {
    INI_LINE_MAX = 1022,    /* bytes before the line's end; iniparser's own limit */
    INI_NAME_MAX = 200,     /* iniparser reads at most 1024 bytes of both names together */
    INI_LINES_MAX = 500000, /* each takes a hundred bytes of memory, even in a hostile file */
};

enum ini_kind { INI_BLANK, INI_COMMENT, INI_SECTION, INI_KEY, INI_CONTINUATION, INI_JUNK };

/* Kept small: a long record has a hundred thousand. */
struct ini_line {
    const char *bytes; /* without the line's end; no NUL at the end */
    /* Of a section or key, lower case; NULL: not usable. Most keys of one name share it. */
    const char *name;
    /* Of a key: the line up to its last visible byte, joined with those that continue it, which are
     * the next ones of that kind. `bytes` where there are none. */
    const char *logical;
    const char *value;        /* what it is, decoded; NULL until it is read (ini_read.h) */
    uint32_t section;         /* index into sections; 0 before the first */
    uint16_t length;          /* of `bytes` */
    uint16_t logical_length;  /* of `logical` */
    uint16_t value_at;        /* where the value starts in `logical`, after "=" and blanks */
    uint16_t rest_at;         /* where the value ends; blanks and a comment may follow */
    uint8_t end_length;       /* 0, 1 or 2 */
    uint8_t kind;             /* an enum ini_kind */
    bool final_backslash : 1; /* a backslash at the end belongs to the value */
    bool skipped : 1;         /* set by the caller of ini_read: its value stays NULL */
    bool zero : 1;            /* its value holds %00, which stays as it is, */
    bool escaped : 1;         /* or another %XX */
};

struct ini_section {
    const char *name; /* lower case; NULL for index 0 and if not usable */
    size_t line;      /* its line's index */
};

struct ini_text {
    struct bytes bytes; /* as in the file */
    size_t start;       /* after its byte order marks */
    struct ini_line *lines;
    size_t line_count;
    struct ini_section *sections; /* the first is for the lines before any section */
    size_t section_count;
    char *arena;  /* of names and of lines that are joined */
    char *values; /* of values that are read */
};

struct ini_fault {
    size_t line; /* from 1 */
    const char *words;
};

/*
 * Takes the bytes over on success and leaves `bytes` empty; on failure they stay the caller's.
 * STATUS_BINARY for a NUL, STATUS_TOO_LONG for a line over INI_LINE_MAX, STATUS_TOO_LARGE for more
 * than INI_LINES_MAX lines: *ret_fault then says where. STATUS_NO_MEMORY.
 */
enum status ini_text_parse(struct bytes *bytes, struct ini_text *ret_text,
                           struct ini_fault *ret_fault);
void ini_text_done(struct ini_text *text);

/* The index of the last section of that name; 0 if there is none. */
size_t ini_text_section(const struct ini_text *text, const char *name);

/* The name of a key line's section; NULL if that or its own name is not usable, and for every other
 * line. */
static inline const char *ini_line_section(const struct ini_text *text, const struct ini_line *line)
{
    return line->kind == INI_KEY && line->name ? text->sections[line->section].name : NULL;
}

/* Its number in the file, from 1. */
size_t ini_line_number(const struct ini_text *text, const struct ini_line *line);

/* Of a key line: what stands after its value and blanks; a NUL if nothing does. */
char ini_line_rest(const struct ini_line *line);

/* The line end for new lines: that of the first line, else LF. */
const char *ini_text_line_end(const struct ini_text *text);

/* True for a byte that iniparser treats as a blank. */
bool ini_is_blank(char c);

#endif
