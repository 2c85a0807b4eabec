/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_name.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char ending[] = ".ini";

bool profile_name_is_listed(const char *file)
{
    const size_t length = strlen(file), own = sizeof ending - 1;

    return file[0] != '.' && length > own && strcmp(file + length - own, ending) == 0;
}

void profile_name_make(const char *name, struct strbuf *out)
{
    const size_t start = out->length;
    bool dash = false;

    for (const char *at = name; *at && out->length - start < PROFILE_STEM_MAX; at++) {
        const bool upper = *at >= 'A' && *at <= 'Z';

        if (!upper && !(*at >= 'a' && *at <= 'z') && !(*at >= '0' && *at <= '9')) {
            dash = true;
            continue;
        }
        if (dash && out->length > start)
            strbuf_add_char(out, '-');
        dash = false;
        strbuf_add_char(out, upper ? (char)(*at - 'A' + 'a') : *at);
    }
    if (out->length == start)
        strbuf_add(out, "instrument");
}

char *profile_name_numbered(const char *stem, size_t length, int number)
{
    const size_t size = length + sizeof ending + 8;
    char *name = malloc(size);

    if (!name)
        return NULL;
    if (number == 1)
        snprintf(name, size, "%.*s%s", (int)length, stem, ending);
    else
        snprintf(name, size, "%.*s-%d%s", (int)length, stem, number, ending);
    return name;
}
