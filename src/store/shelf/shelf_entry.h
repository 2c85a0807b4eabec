/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_ENTRY_H
#define SILLET_STORE_SHELF_SHELF_ENTRY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/stat.h>

#include "base/status.h"
#include "model/derive/card.h"
#include "model/survey/shelf_facts.h"

/* One profile on a shelf, and the stamp that tells whether its file has changed. */

/* Which file it was, and in which state. Times in seconds and nanoseconds. */
struct shelf_stamp {
    uint64_t device, inode, size;
    int64_t written_s, written_ns; /* when the content was changed */
    int64_t touched_s, touched_ns; /* when content, name, owner or mode was changed */
};

struct shelf_entry {
    const char *file;                /* the name within the folder; not owned */
    struct shelf_stamp stamp;        /* of the file that a link leads to; all 0 if there is none */
    bool read;                       /* status, card and facts are known */
    bool glanced;                    /* status and what shelf_glance.h says are known */
    bool newer;                      /* in an unknown format, so it can only be read */
    bool linked;                     /* a symbolic link */
    bool in_use;                     /* another program seems to edit it */
    bool versions;                   /* other versions are beside it (copies.h) */
    bool is_version;                 /* of another entry, by its name (profile_synced.h) */
    bool settled;                    /* a later change will change its stamp */
    enum status status;              /* STATUS_OK, or why it cannot be opened */
    struct card card;                /* as far as it is known; all "" unless STATUS_OK */
    const struct shelf_facts *facts; /* the same; never NULL, blank unless STATUS_OK */
    char *memory; /* owned: facts, and the texts of the card; NULL: all entries own them */
};

/* Entries, sorted by the bytes of their file names. */
struct shelf_entries {
    struct shelf_entry *items;
    size_t count, capacity;
    char *names;         /* owned: of the files of a folder; NULL: none */
    char *texts, *facts; /* owned: of those that a cache held; NULL: none */
};

struct shelf_stamp shelf_stamp_of(const struct stat *facts);
bool shelf_stamp_equal(const struct shelf_stamp *a, const struct shelf_stamp *b);

/* Gives an entry its own copies of a card's texts and facts, which may be those that it has. After
 * STATUS_NO_MEMORY it is unchanged. */
enum status shelf_entry_set(struct shelf_entry *entry, const struct card *card,
                            const struct shelf_facts *facts);

/* A card with empty texts. */
struct card shelf_blank_card(void);

/* A new, empty entry at the end; NULL if out of memory. */
struct shelf_entry *shelf_entries_add(struct shelf_entries *entries);
void shelf_entries_done(struct shelf_entries *entries);

/* The entry of a file; NULL if there is none. */
struct shelf_entry *shelf_entries_find(const struct shelf_entries *entries, const char *file);

#endif
