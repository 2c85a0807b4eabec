/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_BYTES_H
#define SILLET_STORE_BYTES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/*
 * A growing run of bytes. After a failed allocation `failed` is set and later additions do
 * nothing, so a writer need check only once, at the end.
 */
struct bytes {
    char *data; /* owned; may be NULL while empty */
    size_t length, capacity;
    bool failed;
};

void bytes_init(struct bytes *bytes);
void bytes_done(struct bytes *bytes); /* keeps errno */

void bytes_add(struct bytes *bytes, const char *data, size_t length);
void bytes_add_text(struct bytes *bytes, const char *text);

/* Room for so many more behind the last one, for the caller to write to; `length` is then to be
 * raised by as many as were written. NULL if out of memory. */
char *bytes_room(struct bytes *bytes, size_t more);

/* STATUS_OK, or STATUS_NO_MEMORY after a failed addition. */
enum status bytes_status(const struct bytes *bytes);

/* True if both hold the same bytes. */
bool bytes_equal(const struct bytes *a, const struct bytes *b);

#endif
