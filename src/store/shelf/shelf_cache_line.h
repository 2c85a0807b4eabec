/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_CACHE_LINE_H
#define SILLET_STORE_SHELF_SHELF_CACHE_LINE_H

#include "store/bytes.h"
#include "store/shelf/shelf_entry.h"

/*
 * For shelf_cache.c only: an entry as a line of the cache, with tabs between its fields. Control
 * characters and % are written as %XX.
 */

void shelf_cache_add_text(struct bytes *out, const char *text);
void shelf_cache_add_entry(struct bytes *out, const struct shelf_entry *entry);

/* A line on its way into an entry. */
struct shelf_cache_line {
    char *at;
    bool escaped; /* it holds a % */
};

/* Takes the entry that the line begins and moves behind it; false if it is none. The entry's texts
 * stay where they are in the line; its facts take what they need of the room that *free begins. */
bool shelf_cache_take_entry(struct shelf_cache_line *line, char **free, struct shelf_entry *entry);

#endif
