/* SPDX-License-Identifier: MIT */
#include "store/bytes.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "store/disk.h"

void bytes_init(struct bytes *bytes)
{
    *bytes = (struct bytes){0};
}

void bytes_done(struct bytes *bytes)
{
    disk_free(bytes->data);
    bytes_init(bytes);
}

static bool make_room(struct bytes *bytes, size_t more)
{
    size_t capacity = bytes->capacity ? bytes->capacity : 1024;

    if (more > SIZE_MAX / 4 || bytes->length > SIZE_MAX / 4)
        return false;
    while (capacity < bytes->length + more)
        capacity *= 2;
    if (capacity == bytes->capacity)
        return true;
    char *data = realloc(bytes->data, capacity);
    if (!data)
        return false;
    bytes->data = data;
    bytes->capacity = capacity;
    return true;
}

char *bytes_room(struct bytes *bytes, size_t more)
{
    bytes->failed = bytes->failed || !make_room(bytes, more);
    return bytes->failed ? NULL : bytes->data + bytes->length;
}

void bytes_add(struct bytes *bytes, const char *data, size_t length)
{
    char *to = length > 0 ? bytes_room(bytes, length) : NULL;

    if (!to)
        return;
    memcpy(to, data, length);
    bytes->length += length;
}

void bytes_add_text(struct bytes *bytes, const char *text)
{
    bytes_add(bytes, text, strlen(text));
}

enum status bytes_status(const struct bytes *bytes)
{
    return bytes->failed ? STATUS_NO_MEMORY : STATUS_OK;
}

bool bytes_equal(const struct bytes *a, const struct bytes *b)
{
    return a->length == b->length && (a->length == 0 || memcmp(a->data, b->data, a->length) == 0);
}
