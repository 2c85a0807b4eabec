/* SPDX-License-Identifier: MIT */
#include "store/profile/ini_end.h"

#include <inttypes.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "store/crc32.h"

static const char header[] = "[end]";

static size_t count_newlines(const char *bytes, size_t length)
{
    const char *at = bytes;
    size_t count = 0;

    while (length > 0 && (at = memchr(at, '\n', length - (size_t)(at - bytes))) != NULL) {
        count++;
        at++;
    }
    return count;
}

/* True if a line at `at` starts with the header. */
static bool header_at(const char *bytes, size_t length, size_t at)
{
    return (at == 0 || bytes[at - 1] == '\n') && length - at >= sizeof header - 1 &&
           memcmp(bytes + at, header, sizeof header - 1) == 0;
}

/* Where the last [end] line starts; `length` if there is none. */
static size_t find_header(const char *bytes, size_t length)
{
    const char *at = bytes;
    size_t found = length;

    while (length > 0 && (at = memchr(at, '[', length - (size_t)(at - bytes))) != NULL) {
        if (header_at(bytes, length, (size_t)(at - bytes)))
            found = (size_t)(at - bytes);
        at++;
    }
    return found;
}

static void write_end(const char *bytes, size_t length, size_t lines, const char *line_end,
                      char *out, size_t size)
{
    snprintf(out, size, "%s%slines = %zu%scrc32 = %08" PRIx32 "%s", header, line_end, lines,
             line_end, crc32_of(bytes, length), line_end);
}

enum ini_end ini_end_check(const char *bytes, size_t length, size_t *ret_line)
{
    const size_t at = find_header(bytes, length);
    char wanted[96];

    *ret_line = 0;
    if (at == length)
        return INI_END_MISSING;
    const size_t lines = count_newlines(bytes, at);
    *ret_line = lines + 1;
    const bool crlf = length - at > sizeof header && bytes[at + sizeof header - 1] == '\r';
    /* There is only one way to write it, so it is enough to compare. */
    write_end(bytes, at, lines, crlf ? "\r\n" : "\n", wanted, sizeof wanted);
    if (strlen(wanted) == length - at && memcmp(bytes + at, wanted, length - at) == 0)
        return INI_END_GOOD;
    return INI_END_WRONG;
}

void ini_end_add(struct bytes *bytes, const char *line_end)
{
    char text[96];

    if (bytes->failed)
        return;
    write_end(bytes->data, bytes->length, count_newlines(bytes->data, bytes->length), line_end,
              text, sizeof text);
    bytes_add_text(bytes, text);
}
