/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_ARRAY_H
#define SILLET_BASE_ARRAY_H

#include <stddef.h>

/*
 * The items with room for at least one more after `count`; they may have moved. NULL when
 * memory is out: the old ones then still stand, and *capacity is untouched.
 *
 *     struct thing *items = array_grow(list->items, list->count, &list->capacity, sizeof *items);
 *     if (!items)
 *         return STATUS_NO_MEMORY;
 *     list->items = items;
 */
void *array_grow(void *items, size_t count, size_t *capacity, size_t item_size);

#endif
