/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_READ_H
#define SILLET_STORE_INI_READ_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "store/ini_text.h"

/*
 * The values of an INI text, read by iniparser. Only lines that ini_text understood reach
 * it, by way of private copies in memory, a part of the file in each, so that what was checked is
 * what is parsed and the file's name is never opened twice. Nothing is printed.
 */
struct ini_entry {
    size_t line;         /* index into the text's lines */
    const char *section; /* of the text */
    const char *name;    /* of the text */
    char *value;         /* escapes undone; owned by the entries */
    bool zero;           /* holds %00, which was left alone */
};

struct ini_entries {
    struct ini_entry *items; /* in the order of the lines */
    size_t count;
    char *arena;
};

/*
 * One entry for each key line with a usable name in a section with a usable name, a repeated
 * name's too. The value is what iniparser makes of it. Valid as long as the text is.
 * STATUS_NO_MEMORY, also where iniparser lost a value for lack of it; STATUS_FULL or STATUS_IO with
 * errno set when iniparser could not be given the copy.
 */
enum status ini_read(const struct ini_text *text, struct ini_entries *ret_entries);
void ini_entries_done(struct ini_entries *entries);

#endif
