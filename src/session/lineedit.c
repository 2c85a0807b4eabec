/* SPDX-License-Identifier: MIT */
#include "session/lineedit.h"

#include <string.h>

#include "session/event.h"
#include "base/utf8.h"

void lineedit_clear(struct lineedit *line)
{
    line->text[0] = '\0';
    line->length = line->cursor = 0;
}

bool lineedit_is_empty(const struct lineedit *line)
{
    return line->length == 0;
}

bool lineedit_add(struct lineedit *line, uint32_t rune)
{
    char bytes[4];
    const size_t length = utf8_encode(rune, bytes);
    char *at = line->text + line->cursor;

    if (line->length + length > LINEEDIT_MAX)
        return false;
    memmove(at + length, at, line->length - line->cursor + 1);
    memcpy(at, bytes, length);
    line->length += length;
    line->cursor += length;
    return true;
}

bool lineedit_set(struct lineedit *line, const char *text)
{
    const size_t length = strlen(text);

    lineedit_clear(line);
    if (length > LINEEDIT_MAX)
        return false;
    memcpy(line->text, text, length + 1);
    line->length = line->cursor = length;
    return true;
}

/* Where the character before `at` begins. Invalid bytes count as one character each, as they are
 * shown. */
static size_t character_before(const struct lineedit *line, size_t at)
{
    for (size_t size = 2; size <= 4 && size <= at; size++) {
        uint32_t rune;
        bool valid;

        if (utf8_decode(line->text + at - size, size, &rune, &valid) == size && valid)
            return at - size;
    }
    return at > 0 ? at - 1 : 0;
}

static size_t character_behind(const struct lineedit *line, size_t at)
{
    uint32_t rune;

    return at + utf8_decode(line->text + at, line->length - at, &rune, NULL);
}

static bool take_out(struct lineedit *line, size_t from, size_t to)
{
    memmove(line->text + from, line->text + to, line->length - to + 1);
    line->length -= to - from;
    line->cursor = from;
    return from < to;
}

bool lineedit_backspace(struct lineedit *line)
{
    return take_out(line, character_before(line, line->cursor), line->cursor);
}

bool lineedit_delete(struct lineedit *line)
{
    return take_out(line, line->cursor, character_behind(line, line->cursor));
}

bool lineedit_move(struct lineedit *line, uint32_t key)
{
    switch (key) {
    case SILLET_KEY_LEFT:
        line->cursor = character_before(line, line->cursor);
        return true;
    case SILLET_KEY_RIGHT:
        line->cursor = character_behind(line, line->cursor);
        return true;
    case SILLET_KEY_HOME:
        line->cursor = 0;
        return true;
    case SILLET_KEY_END:
        line->cursor = line->length;
        return true;
    case SILLET_KEY_CTRL('u'):
        lineedit_clear(line);
        return true;
    default:
        return false;
    }
}
