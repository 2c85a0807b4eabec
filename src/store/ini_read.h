/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_READ_H
#define SILLET_STORE_INI_READ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/status.h"
#include "store/ini_text.h"

/*
 * The values of an INI text, read by iniparser. It gets the lines that ini_text understood, as
 * copies in memory: the file itself is opened only once, and what was checked is what is parsed.
 * Prints nothing.
 */
struct ini_entry {
    const char *section; /* owned by the text */
    const char *name;    /* owned by the text */
    const char *value;   /* decoded; owned by the entries */
    uint32_t line;       /* index into the text's lines */
    bool zero;           /* holds %00, which stays as it is */
    bool escaped;        /* holds another %XX */
    bool skipped;        /* set by the caller before ini_read_values: its value stays NULL */
};

struct ini_entries {
    struct ini_entry *items; /* in the order of the lines */
    size_t count;
    char *arena;
};

/*
 * Makes an entry of each key line whose own name and section name are usable, repeated names
 * included. The entries are valid as long as the text is. STATUS_NO_MEMORY, also if iniparser
 * dropped a value for lack of memory; STATUS_FULL or STATUS_IO with errno set if the copy could not
 * be handed to iniparser.
 */
enum status ini_read(const struct ini_text *text, struct ini_entries *ret_entries);

/*
 * The same in two steps, for a caller who needs some of the values only. ini_list makes the
 * entries, which are to be freed even after STATUS_NO_MEMORY, and ini_read_values reads the values
 * of those that are not skipped.
 */
enum status ini_list(const struct ini_text *text, struct ini_entries *ret_entries);
enum status ini_read_values(const struct ini_text *text, struct ini_entries *entries);
void ini_entries_done(struct ini_entries *entries);

#endif
