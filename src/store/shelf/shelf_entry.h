/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_ENTRY_H
#define SILLET_STORE_SHELF_SHELF_ENTRY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/stat.h>

#include "base/status.h"
#include "model/card.h"

/* One profile on a shelf, and the signs by which a changed file is told. */

/* Which file it was, and in which state: times in seconds and nanoseconds. */
struct shelf_stamp {
    uint64_t device, inode, size;
    int64_t written_s, written_ns; /* the content */
    int64_t touched_s, touched_ns; /* content, name, owner or mode */
};

struct shelf_entry {
    const char *file;         /* the name within the folder */
    struct shelf_stamp stamp; /* of the file that a link leads to; all 0 when there is none */
    bool read;                /* whether status and card say anything yet */
    bool newer;               /* in a format that is not known: for reading only */
    bool linked;              /* a symbolic link */
    bool in_use;              /* another program seems to edit it */
    bool versions;            /* others lie beside it: copies.h */
    bool settled;             /* unchanged long enough for its stamp to tell a change */
    enum status status;       /* STATUS_OK, or why it cannot be opened */
    struct card card;         /* all "" unless it is read and STATUS_OK */
    char *memory;             /* owned: the texts of all these */
};

/* Entries sorted by file, in the order of bytes. */
struct shelf_entries {
    struct shelf_entry *items;
    size_t count, capacity;
};

struct shelf_stamp shelf_stamp_of(const struct stat *facts);
bool shelf_stamp_equal(const struct shelf_stamp *a, const struct shelf_stamp *b);

/* Gives an entry its own copies of a file's name and a card's texts. STATUS_NO_MEMORY
 * leaves it as it was. The texts may be the entry's own. */
enum status shelf_entry_set(struct shelf_entry *entry, const char *file, const struct card *card);

/* A card without a word. */
struct card shelf_blank_card(void);

/* A new entry at the end, all 0; NULL without memory. */
struct shelf_entry *shelf_entries_add(struct shelf_entries *entries);
void shelf_entries_done(struct shelf_entries *entries);
void shelf_entries_sort(struct shelf_entries *entries);

/* The entry of a file; NULL when there is none. */
struct shelf_entry *shelf_entries_find(const struct shelf_entries *entries, const char *file);

#endif
