/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_BESIDE_H
#define SILLET_STORE_PROFILE_BESIDE_H

#include <stdbool.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * Inside store only. Keeps a copy beside a file, as TARGET.SUFFIX, TARGET.SUFFIX.2 and so
 * on: the first name that is free, or that of a file which holds the same bytes already.
 * *ret_path (owned by the caller) says which. Failures as of safefile; STATUS_FULL after
 * 999 names.
 */
enum status beside_keep_copy(const char *target, const char *suffix, const struct bytes *bytes,
                             char **ret_path);

/* True when the file is there and holds just these bytes. */
bool beside_holds(const char *path, const struct bytes *bytes);

#endif
