/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_ARRAY_H
#define SILLET_BASE_ARRAY_H

#include <stddef.h>

/*
 * Makes room for at least one more item after the first `count`. Returns the items, which may have
 * moved. NULL when out of memory: the old items are then still valid, and *capacity is untouched.
 *
 *     struct thing *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);
 *     if (!items)
 *         return STATUS_NO_MEMORY;
 *     list->items = items;
 */
void *array_grow(void *items, size_t count, size_t *capacity, size_t item_size);

#endif
