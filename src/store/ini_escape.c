/* SPDX-License-Identifier: MIT */
#include "store/ini_escape.h"

#include <string.h>

#include "base/utf8.h"
#include "store/ini_text.h"

static int hex_digit(char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return -1;
}

/* True if the '%' at `at` would be read as the start of an escape. */
static bool looks_escaped(const char *text, size_t length, size_t at)
{
    return at + 2 < length && hex_digit(text[at + 1]) >= 0 && hex_digit(text[at + 2]) >= 0;
}

static bool is_plain(const char *text, size_t length)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                " ./+-:_,%";

    if (length == 0 || length > INI_VALUE_MAX || text[0] == ' ' || text[length - 1] == ' ')
        return false;
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\0' || !strchr(plain, text[i]) ||
            (text[i] == '%' && looks_escaped(text, length, i)))
            return false;
    return true;
}

/* Whether the character of `size` bytes at `at` is written as %XX. */
static bool needs_escape(const char *text, size_t length, size_t at, uint32_t rune, bool valid)
{
    if (!valid || utf8_unsafe(rune))
        return true;
    switch (rune) {
    case '"':
    case '\\':
    case ';':
    case '#':
        return true;
    case '\'':
        return at == 0;
    case '%':
        return looks_escaped(text, length, at);
    default:
        return false;
    }
}

static void add_escaped(const char *text, size_t size, struct bytes *out)
{
    static const char digits[] = "0123456789ABCDEF";

    for (size_t i = 0; i < size; i++) {
        const unsigned char byte = (unsigned char)text[i];
        const char escape[3] = {'%', digits[byte >> 4], digits[byte & 15]};

        bytes_add(out, escape, sizeof escape);
    }
}

size_t ini_escape(const char *text, size_t length, struct bytes *out)
{
    size_t at = 0, written = 0;

    if (is_plain(text, length)) {
        bytes_add(out, text, length);
        return length;
    }
    bytes_add_text(out, "\"");
    while (at < length) {
        uint32_t rune;
        bool valid;
        const size_t size = utf8_decode(text + at, length - at, &rune, &valid);
        const bool escape = needs_escape(text, length, at, rune, valid);

        written += escape ? 3 * size : size;
        if (written > INI_VALUE_MAX)
            break;
        if (escape)
            add_escaped(text + at, size, out);
        else
            bytes_add(out, text + at, size);
        at += size;
    }
    bytes_add_text(out, "\"");
    return at;
}

size_t ini_unescape(char *value, bool *ret_zero)
{
    const size_t length = strlen(value);
    size_t to = 0;

    for (size_t at = 0; at < length; at++) {
        char c = value[at];

        if (c == '%' && looks_escaped(value, length, at)) {
            const int byte = hex_digit(value[at + 1]) * 16 + hex_digit(value[at + 2]);

            if (byte != 0) {
                c = (char)(unsigned char)byte;
                at += 2;
            } else if (ret_zero) {
                *ret_zero = true;
            }
        }
        value[to++] = c;
    }
    value[to] = '\0';
    return to;
}
