/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_WRITE_H
#define SILLET_STORE_INI_WRITE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/ini_text.h"

/* Rewrites an INI text with some lines changed; every other byte stays. */

enum ini_edit_kind {
    INI_DROP,        /* removes line `at` and its continuations */
    INI_REPLACE,     /* key line `at` gets a new value; indent, spelling and comment stay */
    INI_ADD,         /* adds a key to the section that is there */
    INI_ADD_SECTION, /* adds an empty line, then a section line */
    INI_ADD_BELOW,   /* adds a key to the section added last */
};

struct ini_edit {
    enum ini_edit_kind kind;
    size_t at;         /* a line's index; additions go in front of that line */
    size_t order;      /* among the additions in one place */
    char name[64];     /* of the key or section */
    const char *value; /* any text; unused for a section */
    bool long_text;    /* may continue in name.1, name.2 ... */
    bool spelled;      /* is written as it is: it has its quotes and escapes */
};

/*
 * Appends the edited text to `out` and sorts the edits. Byte order marks are left out. Added lines
 * end as the text's first line does. STATUS_TOO_LONG if a value without `long_text` does not fit
 * into one line; STATUS_NO_MEMORY.
 */
enum status ini_write(const struct ini_text *text, struct ini_edit *edits, size_t count,
                      struct bytes *out);

/* Makes `out` end in an empty line. */
void ini_write_gap(struct bytes *out, const char *line_end);

#endif
