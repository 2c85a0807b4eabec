/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_GREETING_H
#define SILLET_RUN_GREETING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"
#include "store/profile.h"

/* What there is to say of an instrument when it is opened, the weightiest first: why it can only
 * be read, what lies beside it, what is wrong with its file, its folder or the shop's settings. */

struct greeted {
    const struct profile *profile;
    enum profile_access access; /* as it was asked for */
    unsigned found;             /* the profile's notices when it was opened */
    bool from_shelf;            /* which has told what is wrong in the shop's settings */
};

/* Appends the next thing that there is to say to an empty `out`; false when that was all. `*told`
 * counts what is behind, from 0. */
bool greeting_next(const struct greeted *greeted, size_t *told, struct strbuf *out);

/* That the record fills half of what a file can hold. */
void greeting_add_long(struct strbuf *out);

#endif
