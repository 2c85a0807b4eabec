/* SPDX-License-Identifier: MIT */
#include "base/utf8.h"

#include <assert.h>
#include <string.h>

#include "base/ascii.h"

/* Latin letters from U+00C0 to U+017F without their accents; a blank where there is more to say, or
 * none to take off. */
static const char latin[] =
    "aaaaaa ceeeeiiiidnooooo ouuuuy  aaaaaa ceeeeiiiidnooooo ouuuuy y"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii  jjkkk"
    "llllllllllnnnnnnnnnoooooo  rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

enum { LATIN_FIRST = 0xC0, LATIN_LAST = 0x17F };
static_assert(sizeof latin - 1 == LATIN_LAST - LATIN_FIRST + 1, "a letter for each");

static const struct {
    uint32_t rune;
    const char *letters;
} more[] = {
    {0xC6, "ae"},  {0xE6, "ae"},  {0xDE, "th"},  {0xFE, "th"},  {0xDF, "ss"},
    {0x132, "ij"}, {0x133, "ij"}, {0x152, "oe"}, {0x153, "oe"}, {0x1E9E, "ss"},
};

static const char *letters_of(uint32_t rune)
{
    for (size_t i = 0; i < sizeof more / sizeof more[0]; i++)
        if (more[i].rune == rune)
            return more[i].letters;
    return NULL;
}

/* Greek and Cyrillic capitals to their small letters; final sigma to the other one. */
static uint32_t lower(uint32_t rune)
{
    if ((rune >= 'A' && rune <= 'Z') || (rune >= 0x391 && rune <= 0x3A9) ||
        (rune >= 0x410 && rune <= 0x42F))
        return rune + 0x20;
    if (rune >= 0x400 && rune <= 0x40F)
        return rune + 0x50;
    return rune == 0x3C2 ? 0x3C3 : rune;
}

static void add_rune(struct strbuf *out, uint32_t rune)
{
    const char *letters = letters_of(rune);
    char bytes[4];

    if (letters)
        strbuf_add(out, letters);
    else if (rune >= LATIN_FIRST && rune <= LATIN_LAST && latin[rune - LATIN_FIRST] != ' ')
        strbuf_add_char(out, latin[rune - LATIN_FIRST]);
    else
        strbuf_add_bytes(out, bytes, utf8_encode(lower(rune), bytes));
}

static bool is_accent(uint32_t rune)
{
    return rune >= 0x300 && rune <= 0x36F;
}

/* As much of the text as is ASCII, which is most texts as a whole; how many bytes that was. */
static size_t add_ascii(struct strbuf *out, const char *text)
{
    size_t length = 0;

    while (text[length] != '\0' && (unsigned char)text[length] < 0x80 &&
           out->length + 1 < out->size && !out->truncated)
        out->text[out->length++] = ascii_lower(text[length++]);
    out->text[out->length] = '\0';
    return length;
}

void utf8_add_folded(struct strbuf *out, const char *text)
{
    text += add_ascii(out, text);
    size_t left = strlen(text);

    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        if (!is_accent(rune))
            add_rune(out, rune);
        text += length;
        left -= length;
    }
}
