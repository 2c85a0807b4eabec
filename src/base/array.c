/* SPDX-License-Identifier: MIT */
#include "base/array.h"

#include <stdint.h>
#include <stdlib.h>

enum { FIRST_CAPACITY = 32 };

void *array_grow(void *items, size_t count, size_t *capacity, size_t item_size)
{
    if (count < *capacity)
        return items;
    if (*capacity > SIZE_MAX / 2 / item_size)
        return NULL;
    const size_t more = *capacity ? 2 * *capacity : FIRST_CAPACITY;
    void *moved = realloc(items, more * item_size);

    if (moved)
        *capacity = more;
    return moved;
}
