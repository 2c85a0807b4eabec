/* SPDX-License-Identifier: MIT */
#ifndef SILLET_CLI_SHELF_EARLIER_ITEMS_H
#define SILLET_CLI_SHELF_EARLIER_ITEMS_H

#include "app/shelf_earlier.h"
#include "store/generations.h"

/* The earlier states of a profile as the shelf lists them. */
struct earlier_items {
    struct generations generations;
    struct shelf_earlier *items; /* as many, in the same order */
};

/* Lists and reads them; none, or nothing that can be read, is an empty list. Fails as
 * generations_list does. */
enum status earlier_items_read(const char *path, struct earlier_items *ret_items);
void earlier_items_done(struct earlier_items *items);

#endif
