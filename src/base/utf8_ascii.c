/* SPDX-License-Identifier: MIT */
#include "base/utf8.h"

#include <string.h>

struct substitute {
    uint32_t rune;
    const char *ascii;
};

static const struct substitute substitutes[] = {
    {0xA0, " "},     {0xB1, "+-"},                                /* plus-minus */
    {0xB7, "-"},                                                  /* middle dot */
    {0xB0, " deg "},                                              /* degree */
    {0xBC, " 1/4"},  {0xBD, " 1/2"}, {0xBE, " 3/4"}, {0xD7, "x"}, /* times */
    {0xB2, "^2"},                                                 /* squared */
    {0x266D, "b"},   {0x266F, "#"},                               /* flat, sharp */
    {0x2192, "->"},                                               /* arrow */
    {0x2013, "-"},   {0x2014, "-"},                               /* dashes */
    {0x2019, "'"},   {0x2500, "-"},                               /* rule */
    {0xB5, "u"},     {0x3BC, "u"},                                /* micro */
};

static void add_rune(struct strbuf *out, uint32_t rune)
{
    if (rune >= ' ' && rune < 0x7F) {
        strbuf_add_char(out, (char)rune);
        return;
    }
    for (size_t i = 0; i < sizeof substitutes / sizeof substitutes[0]; i++)
        if (substitutes[i].rune == rune) {
            strbuf_add(out, substitutes[i].ascii);
            return;
        }
    /* One mark for each column keeps the layout of names in other scripts. */
    for (int column = utf8_unsafe(rune) ? 1 : utf8_width(rune); column > 0; column--)
        strbuf_add_char(out, '?');
}

void utf8_add_ascii(struct strbuf *out, const char *text)
{
    size_t left = strlen(text);

    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        add_rune(out, rune);
        text += length;
        left -= length;
    }
}
