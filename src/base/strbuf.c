/* SPDX-License-Identifier: MIT */
#include "base/strbuf.h"

#include <stdio.h>
#include <string.h>

struct strbuf strbuf_over(char *memory, size_t size)
{
    memory[0] = '\0';
    return (struct strbuf){.text = memory, .size = size, .length = 0, .truncated = false};
}

void strbuf_clear(struct strbuf *buf)
{
    buf->text[0] = '\0';
    buf->length = 0;
    buf->truncated = false;
}

/* The length in bytes of the UTF-8 character that starts with `lead`. */
static size_t sequence_length(unsigned char lead)
{
    if (lead >= 0xF0)
        return 4;
    if (lead >= 0xE0)
        return 3;
    return lead >= 0xC0 ? 2 : 1;
}

/* Closes the text for good and drops the first bytes of a character that did not fit. */
static void truncate_text(struct strbuf *buf)
{
    size_t back = 1;

    while (back < 4 && back < buf->length &&
           ((unsigned char)buf->text[buf->length - back] & 0xC0) == 0x80)
        back++;
    if (back <= buf->length && sequence_length((unsigned char)buf->text[buf->length - back]) > back)
        buf->length -= back;
    buf->text[buf->length] = '\0';
    buf->truncated = true;
}

void strbuf_add_bytes(struct strbuf *buf, const char *bytes, size_t length)
{
    size_t room = buf->size - buf->length - 1;
    size_t taken = length < room ? length : room;

    if (buf->truncated)
        return;
    memcpy(buf->text + buf->length, bytes, taken);
    buf->length += taken;
    buf->text[buf->length] = '\0';
    if (taken < length)
        truncate_text(buf);
}

void strbuf_add(struct strbuf *buf, const char *text)
{
    strbuf_add_bytes(buf, text, strlen(text));
}

void strbuf_add_char(struct strbuf *buf, char c)
{
    strbuf_add_bytes(buf, &c, 1);
}

void strbuf_addf(struct strbuf *buf, const char *format, ...)
{
    size_t room = buf->size - buf->length;
    va_list arguments;
    int written;

    if (buf->truncated)
        return;
    va_start(arguments, format);
    written = vsnprintf(buf->text + buf->length, room, format, arguments);
    va_end(arguments);
    if (written >= 0 && (size_t)written < room) {
        buf->length += (size_t)written;
        return;
    }
    if (written >= 0)
        buf->length = buf->size - 1;
    truncate_text(buf);
}

void strbuf_add_count(struct strbuf *buf, size_t count, const char *one, const char *many)
{
    strbuf_addf(buf, "%zu %s", count, count == 1 ? one : many);
}
