/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_load.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

/* What was loaded, and where its readings stand. */

bool profile_is_long(const struct profile_content *content)
{
    return content->text.line_count > PROFILE_LINES_MAX / 2 ||
           content->text.bytes.length > PROFILE_BYTES_MAX / 2;
}

bool profile_is_too_long(const struct profile_content *content)
{
    return content->text.line_count > PROFILE_LINES_MAX ||
           content->text.bytes.length > PROFILE_BYTES_MAX;
}

void profile_content_done(struct profile_content *content)
{
    const int kept_errno = errno;

    ini_text_done(&content->text);
    free(content->lines);
    record_done(&content->record);
    *content = (struct profile_content){0};
    errno = kept_errno;
}

size_t profile_lines_below(const struct profile_content *content, const struct reading_key *key)
{
    size_t low = 0, high = content->line_count;

    while (low < high) {
        const size_t middle = low + (high - low) / 2;

        if (reading_key_compare_written(&content->lines[middle].key, key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

size_t profile_find_line(const struct profile_content *content, const struct reading_key *key)
{
    const size_t at = profile_lines_below(content, key);

    if (at < content->line_count && reading_key_compare(&content->lines[at].key, key) == 0)
        return at;
    return content->line_count;
}

size_t profile_line_number(const struct profile_content *content, const struct reading_key *key)
{
    size_t i = profile_find_line(content, key);

    if (i == content->line_count)
        return 0;
    /* Of a repeated key the last line counts. */
    for (; i + 1 < content->line_count; i++) {
        const struct profile_line *next = &content->lines[i + 1];

        if (next->chunk != content->lines[i].chunk || reading_key_compare(&next->key, key) != 0)
            break;
    }
    return content->lines[i].line + 1;
}
