/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_EARLIER_ITEMS_H
#define SILLET_RUN_SHELF_EARLIER_ITEMS_H

#include "shelf/shelf_earlier.h"
#include "store/profile/copies.h"

/* The other versions of a profile and its earlier states, as the shelf lists them. */
struct earlier_items {
    struct copies copies;
    struct shelf_earlier *items; /* as many */
};

/* Lists and reads them; the list is empty if there are none, or none that can be read. Fails as
 * copies_list. */
enum status earlier_items_read(const char *path, struct earlier_items *ret_items);

void earlier_items_done(struct earlier_items *items);

#endif
