/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_OTHERS_H
#define SILLET_STORE_SHELF_SHELF_OTHERS_H

#include "model/reading/ticket.h"
#include "model/setup/rod_prior.h"
#include "model/survey/usual.h"
#include "store/shelf/shelf_entry.h"

/* What the other instruments on a shelf say to the one that is open. */
struct shelf_others {
    struct rod_priors priors;  /* the rods of their necks, by kind */
    struct usuals usuals;      /* what is wanted of those of its kind */
    struct ticket last_ticket; /* the one to count on from */
};

/* From what has been read so far. `own`, the file that is open, says nothing to itself, under
 * whatever name or link it is there; `kind` is its kind, "electric", or "". */
void shelf_others_read(const struct shelf_entries *entries, const char *own, const char *kind,
                       struct shelf_others *ret_others);

/* The same for a profile that was opened by its path, from the cache of its folder alone, so that
 * no other profile is read. Files that have changed since do not count; nor does anything where
 * there is no cache, or it is not of this version. */
void shelf_others_read_cached(const char *path, const char *kind, struct shelf_others *ret_others);

#endif
