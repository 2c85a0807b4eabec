/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_GREETING_H
#define SILLET_RUN_GREETING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"
#include "store/profile/profile.h"

/* The messages about an instrument when it is opened, the most important first: why it can only
 * be read, what is beside it, what is wrong with its file, its folder or the shop's settings. */

struct greeted {
    const struct profile *profile;
    enum profile_access access; /* as asked for */
    unsigned found;             /* the profile's notices when it was opened */
    bool from_shelf;            /* the shelf has already reported errors in the shop's settings */
};

/* Appends the next message to an empty `out`; false if there are no more. `*told` counts those
 * already done; start it at 0. */
bool greeting_next(const struct greeted *greeted, size_t *told, struct strbuf *out);

/* Adds the message that the record fills half of what a file can hold. */
void greeting_add_long(struct strbuf *out);

#endif
