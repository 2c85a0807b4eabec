/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_WRITE_H
#define SILLET_STORE_INI_WRITE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/ini_text.h"

/* An INI text written anew with some lines changed; every other byte stays. */

enum ini_edit_kind {
    INI_DROP,        /* line `at` goes, with its continuations */
    INI_REPLACE,     /* key line `at` gets a new value; indent, spelling, comment stay */
    INI_ADD,         /* a key of the section that stands there already */
    INI_ADD_SECTION, /* a section line, after an empty one */
    INI_ADD_BELOW,   /* a key of the section added before it */
};

struct ini_edit {
    enum ini_edit_kind kind;
    size_t at;         /* a line's index; for additions, how many lines stand before them */
    size_t order;      /* among the additions at one place */
    char name[64];     /* of the key or section */
    const char *value; /* any text; not of a section */
    bool long_text;    /* it may go on in name.1, name.2 ... */
};

/*
 * Appends the edited text to `out`, sorting the edits on the way. A byte order mark is
 * left out. Added lines end as the text's first line does. STATUS_TOO_LONG when a value
 * that may not go on does not fit into one line, STATUS_NO_MEMORY.
 */
enum status ini_write(const struct ini_text *text, struct ini_edit *edits, size_t count,
                      struct bytes *out);

/* Ends the last line if it is not, and adds an empty one if there is none. */
void ini_write_gap(struct bytes *out, const char *line_end);

#endif
