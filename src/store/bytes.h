/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_BYTES_H
#define SILLET_STORE_BYTES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/*
 * A growing run of bytes. A failed allocation is remembered in `failed` and every later
 * addition is ignored, so that a writer asks once, at its end.
 */
struct bytes {
    char *data; /* owned; NULL while empty */
    size_t length, capacity;
    bool failed;
};

void bytes_init(struct bytes *bytes);
void bytes_done(struct bytes *bytes); /* errno stays as it is */

void bytes_add(struct bytes *bytes, const char *data, size_t length);
void bytes_add_text(struct bytes *bytes, const char *text);

/* STATUS_OK, or STATUS_NO_MEMORY after a failed addition. */
enum status bytes_status(const struct bytes *bytes);

/* True when both hold the same. */
bool bytes_equal(const struct bytes *a, const struct bytes *b);

#endif
