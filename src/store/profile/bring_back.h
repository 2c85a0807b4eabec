/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_BRING_BACK_H
#define SILLET_STORE_PROFILE_BRING_BACK_H

#include "base/status.h"

/* What became of a profile whose earlier state was wanted. */
enum brought {
    BROUGHT_NOTHING,  /* the profile is as it was; the status says why */
    BROUGHT_UNKEPT,   /* so it is, because its present state could not be kept first */
    BROUGHT_SAME,     /* so it is: both hold the same, byte for byte */
    BROUGHT_BACK,     /* the earlier state has its place, and the other one is kept */
    BROUGHT_UNSYNCED, /* so it is, but the disk did not say that it will last */
};

/*
 * Puts an earlier state (generations.h) of the profile at `target` in its place: byte for byte,
 * comments and all. The present state, whatever became of it, is kept as an earlier one first,
 * for certain; else nothing is changed. The earlier one stays where it is meanwhile. The status is
 * STATUS_OK with BROUGHT_SAME and BROUGHT_BACK alone: STATUS_LOCKED; STATUS_NEWER where either is
 * of a later format; STATUS_READ_ONLY, STATUS_NOT_OURS for a profile that may not be replaced; what
 * file_read, profile_load, generations_keep and safefile say. *ret_brought is always set.
 */
enum status bring_back(const char *target, const char *generation, enum brought *ret_brought);

#endif
