/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_COPIES_ROW_H
#define SILLET_STORE_COPIES_ROW_H

#include "store/copies.h"
#include "store/share.h"

/* Inside store only: what a kind of copy does in its own way. */
struct copies_row {
    enum copy_kind kind;
    const char *suffix; /* NAME.SUFFIX, then NAME.SUFFIX.2; NULL: numbers of its own */
    enum status (*list)(const struct copies_row *row, const char *target, struct copies *list);
    enum status (*none)(const struct copies_row *row, const char *target);
    /* NULL: it stays where it is. */
    enum status (*move)(const struct copies_row *row, const char *target, const char *to);
};

/* Takes the path over, also on failure. STATUS_NO_MEMORY. */
enum status copies_add(struct copies *list, const struct copy *copy);

/* A file that was not there: STATUS_CHANGED when the name is taken by anything but a copy of the
 * same bytes. Failures as of safefile. */
enum status copies_write(const char *path, const struct share *share, const struct bytes *bytes);

#endif
