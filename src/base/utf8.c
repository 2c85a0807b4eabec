/* SPDX-License-Identifier: MIT */
#include "base/utf8.h"

#include <string.h>

/* The length of a well-formed character that starts with `lead`; 0 if none does. */
static size_t expected_length(unsigned char lead)
{
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if (lead >= 0xE0 && lead <= 0xEF)
        return 3;
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
}

/* The second byte decides overlong forms, surrogates and the end at U+10FFFF
 * (Unicode Standard, Table 3-7). */
static bool second_allowed(unsigned char lead, unsigned char second)
{
    unsigned char low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
    unsigned char high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;

    return second >= low && second <= high;
}

static bool well_formed(const unsigned char *bytes, size_t count)
{
    if (count > 1 && !second_allowed(bytes[0], bytes[1]))
        return false;
    for (size_t i = 2; i < count; i++)
        if ((bytes[i] & 0xC0) != 0x80)
            return false;
    return true;
}

size_t utf8_decode(const char *text, size_t length, uint32_t *ret_rune, bool *ret_valid)
{
    const unsigned char *bytes = (const unsigned char *)text;
    size_t count;
    uint32_t rune;
    bool valid;

    if (length == 0)
        return 0;
    count = expected_length(bytes[0]);
    valid = count != 0 && count <= length && well_formed(bytes, count);
    if (ret_valid)
        *ret_valid = valid;
    if (!valid) {
        *ret_rune = UTF8_REPLACEMENT;
        return 1;
    }
    rune = count == 1 ? bytes[0] : bytes[0] & (0x7Fu >> count);
    for (size_t i = 1; i < count; i++)
        rune = rune << 6 | (bytes[i] & 0x3Fu);
    *ret_rune = rune;
    return count;
}

static char continuation(uint32_t rune, unsigned shift)
{
    return (char)(0x80 | (rune >> shift & 0x3F));
}

size_t utf8_encode(uint32_t rune, char out[4])
{
    if (rune > 0x10FFFF || (rune >= 0xD800 && rune <= 0xDFFF))
        rune = UTF8_REPLACEMENT;
    if (rune < 0x80) {
        out[0] = (char)rune;
        return 1;
    }
    if (rune < 0x800) {
        out[0] = (char)(0xC0 | rune >> 6);
        out[1] = continuation(rune, 0);
        return 2;
    }
    if (rune < 0x10000) {
        out[0] = (char)(0xE0 | rune >> 12);
        out[1] = continuation(rune, 6);
        out[2] = continuation(rune, 0);
        return 3;
    }
    out[0] = (char)(0xF0 | rune >> 18);
    out[1] = continuation(rune, 12);
    out[2] = continuation(rune, 6);
    out[3] = continuation(rune, 0);
    return 4;
}

bool utf8_valid(const char *text, size_t length)
{
    bool valid = true;
    uint32_t rune;

    for (size_t at = 0; at < length && valid;)
        at += utf8_decode(text + at, length - at, &rune, &valid);
    return valid;
}

bool utf8_unsafe(uint32_t rune)
{
    if (rune < 0xA0) /* the common case */
        return rune < 0x20 || rune >= 0x7F;
    if (rune == 0x061C || rune == 0x200E || rune == 0x200F || (rune >= 0x2028 && rune <= 0x202E) ||
        (rune >= 0x2066 && rune <= 0x206F))
        return true;
    if (rune == 0xFEFF || (rune >= 0xE0000 && rune <= 0xE007F))
        return true;
    if ((rune >= 0xD800 && rune <= 0xDFFF) || rune > 0x10FFFF)
        return true;
    return (rune >= 0xFDD0 && rune <= 0xFDEF) || (rune & 0xFFFE) == 0xFFFE;
}

/* The columns of a character as shown: an unsafe one becomes U+FFFD. */
static int shown_width(uint32_t rune)
{
    return utf8_unsafe(rune) ? 1 : utf8_width(rune);
}

size_t utf8_plain_length(const char *text)
{
    size_t length = 0;

    while (text[length] >= ' ' && text[length] <= '~')
        length++;
    return length;
}

int utf8_columns(const char *text)
{
    const size_t plain = utf8_plain_length(text);

    if (text[plain] == '\0')
        return (int)plain;
    const size_t length = strlen(text);
    int columns = 0;
    uint32_t rune;

    for (size_t at = 0; at < length;) {
        at += utf8_decode(text + at, length - at, &rune, NULL);
        columns += shown_width(rune);
    }
    return columns;
}

size_t utf8_clip(const char *text, int columns)
{
    size_t length = strlen(text);
    size_t at = 0;

    while (at < length) {
        uint32_t rune;
        size_t taken = utf8_decode(text + at, length - at, &rune, NULL);

        columns -= shown_width(rune);
        if (columns < 0)
            break;
        at += taken;
    }
    return at;
}

size_t utf8_line(const char *text, int columns)
{
    const size_t fits = utf8_clip(text, columns);
    size_t end = fits;

    if (text[fits] == '\0')
        return fits;
    while (end > 0 && text[end] != ' ')
        end--;
    return end > 0 ? end : fits;
}
