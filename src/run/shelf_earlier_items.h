/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHELF_EARLIER_ITEMS_H
#define SILLET_RUN_SHELF_EARLIER_ITEMS_H

#include "shelf/shelf_earlier.h"
#include "store/generations.h"
#include "store/versions.h"

/* The other versions of a profile and its earlier states, as the shelf lists them. */
struct earlier_items {
    struct versions versions;
    struct generations generations;
    struct shelf_earlier *items; /* the versions, then the generations */
    size_t count;
};

/* Lists and reads them; the list is empty if there are none, or none that can be read. Fails as
 * generations_list. */
enum status earlier_items_read(const char *path, struct earlier_items *ret_items);
/* The path of one of them, and which version it is, NULL for a generation. */
const char *earlier_item_path(const struct earlier_items *items, size_t at);
const struct version *earlier_item_version(const struct earlier_items *items, size_t at);

void earlier_items_done(struct earlier_items *items);

#endif
