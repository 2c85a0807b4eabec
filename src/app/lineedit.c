/* SPDX-License-Identifier: MIT */
#include "app/lineedit.h"

#include <string.h>

#include "base/utf8.h"

void lineedit_clear(struct lineedit *line)
{
    line->text[0] = '\0';
    line->length = 0;
}

bool lineedit_is_empty(const struct lineedit *line)
{
    return line->length == 0;
}

bool lineedit_add(struct lineedit *line, uint32_t rune)
{
    char bytes[4];
    const size_t length = utf8_encode(rune, bytes);

    if (line->length + length > LINEEDIT_MAX)
        return false;
    memcpy(line->text + line->length, bytes, length);
    line->length += length;
    line->text[line->length] = '\0';
    return true;
}

bool lineedit_set(struct lineedit *line, const char *text)
{
    const size_t length = strlen(text);

    lineedit_clear(line);
    if (length > LINEEDIT_MAX)
        return false;
    memcpy(line->text, text, length + 1);
    line->length = length;
    return true;
}

bool lineedit_backspace(struct lineedit *line)
{
    if (line->length == 0)
        return false;
    /* Continuation bytes go with the byte that starts their character. */
    do
        line->length--;
    while (line->length > 0 && ((unsigned char)line->text[line->length] & 0xC0U) == 0x80U);
    line->text[line->length] = '\0';
    return true;
}
