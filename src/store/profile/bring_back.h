/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_BRING_BACK_H
#define SILLET_STORE_PROFILE_BRING_BACK_H

#include "base/status.h"

/* How bringing back an earlier state went. */
enum brought {
    BROUGHT_NOTHING,  /* the profile is unchanged; the status says why */
    BROUGHT_UNKEPT,   /* unchanged, because its present state could not be kept first */
    BROUGHT_SAME,     /* unchanged: both are equal, byte for byte */
    BROUGHT_BACK,     /* replaced; the state before is kept */
    BROUGHT_UNSYNCED, /* replaced, but the disk did not confirm that it will last */
};

/*
 * Replaces the profile at `target` by an earlier state of it (generations.h), byte for byte. The
 * present state, even a damaged one, is first kept as an earlier state; if that fails, nothing is
 * changed. The earlier state is kept too. The status is STATUS_OK for BROUGHT_SAME and BROUGHT_BACK
 * only; else STATUS_LOCKED; STATUS_NEWER if either has a later format; STATUS_READ_ONLY or
 * STATUS_NOT_OURS if the profile may not be replaced; the failures of file_read, profile_load,
 * generations_keep and safefile. *ret_brought is always set.
 */
enum status bring_back(const char *target, const char *generation, enum brought *ret_brought);

#endif
