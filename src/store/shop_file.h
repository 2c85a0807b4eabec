/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_FILE_H
#define SILLET_STORE_SHOP_FILE_H

#include "store/ini_read.h"
#include "store/problem.h"

/* For shop.c, shop_targets.c and shop_prices.c: the settings file as lines, and changes to it. */

struct shop_file {
    struct ini_text text; /* its values read */
};

/* A missing file counts as an empty one. Fails as file_read, ini_text_parse and ini_read; what is
 * wrong with a line is added to `problems`, which may be NULL. */
enum status shop_file_load(const char *path, struct problems *problems, struct shop_file *ret_file);
void shop_file_done(struct shop_file *file); /* keeps errno */

/* The last line of a key, which is the one that counts; NULL if there is none. */
const struct ini_line *shop_file_find(const struct shop_file *file, const char *section,
                                      const char *key);

/* The changes to one section of a file. */
struct shop_edits;
const struct shop_file *shop_edits_file(const struct shop_edits *edits);

/* Sets a key, whose line is edited if it has one. A new one goes right below the section's line, or
 * below a new one at the end. The value has to last until the file is written. */
void shop_edits_set(struct shop_edits *edits, const char *section, const char *key,
                    const char *value);

/* Takes out a line of the file, with those that continue it. */
void shop_edits_drop(struct shop_edits *edits, size_t line);

/*
 * Reads the file, has `change` add its edits, and writes it again; every other byte stays. Makes
 * the folder if it is missing, and holds a lock on it meanwhile, so that of two programs neither
 * loses what the other writes. STATUS_LOCKED if another one holds it for a second or longer; where
 * the system has no locks it does without. Fails as shop_file_load, `change`, ini_write and
 * safefile_put; the file is then as it was.
 */
enum status shop_file_change(const char *path,
                             enum status (*change)(struct shop_edits *edits, const void *wanted),
                             const void *wanted);

#endif
