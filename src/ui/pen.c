/* SPDX-License-Identifier: MIT */
#include "ui/pen.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

struct substitute {
    uint32_t rune;
    const char *ascii;
};

static const struct substitute substitutes[] = {
    {0xB1, "+-"},                                                 /* plus-minus */
    {0xB7, "-"},                                                  /* middle dot */
    {0xB0, " deg "},                                              /* degree */
    {0xBC, " 1/4"},  {0xBD, " 1/2"}, {0xBE, " 3/4"}, {0xD7, "x"}, /* times */
    {0xB2, "^2"},                                                 /* squared */
    {0x266D, "b"},   {0x266F, "#"},                               /* flat, sharp */
    {0x2192, "->"},                                               /* arrow */
    {0x2013, "-"},   {0x2014, "-"},                               /* dashes */
    {0x2019, "'"},
};

static void add_ascii(struct strbuf *out, uint32_t rune)
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
    /* One mark for each column keeps the layout of a name in another script. */
    for (int column = utf8_unsafe(rune) ? 1 : utf8_width(rune); column > 0; column--)
        strbuf_add_char(out, '?');
}

/* The text as this pen may write it, in `memory` where it has to be changed. */
static const char *writable(const struct pen *pen, const char *text, char *memory, size_t size)
{
    struct strbuf out = strbuf_over(memory, size);
    size_t left = strlen(text);

    if (pen->utf8)
        return text;
    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        add_ascii(&out, rune);
        text += length;
        left -= length;
    }
    return memory;
}

int pen_put(const struct pen *pen, int row, int column, int width, enum role role, const char *text)
{
    char memory[1024];

    return frame_put(pen->frame, row, column, width, role,
                     writable(pen, text, memory, sizeof memory));
}

int pen_put_right(const struct pen *pen, int row, int column, int width, enum role role,
                  const char *text)
{
    char memory[1024];

    return frame_put_right(pen->frame, row, column, width, role,
                           writable(pen, text, memory, sizeof memory));
}

int pen_put_cut(const struct pen *pen, int row, int column, int width, enum role role,
                const char *text)
{
    char memory[1024];

    text = writable(pen, text, memory, sizeof memory);
    if (width < 1 || utf8_columns(text) <= width)
        return frame_put(pen->frame, row, column, width, role, text);
    const int used = frame_put(pen->frame, row, column, width - 1, role, text);
    frame_put_rune(pen->frame, row, column + used, role, pen->utf8 ? 0x2026 : '~');
    return used + 1;
}

void pen_rule(const struct pen *pen, int row, int column, int width)
{
    for (int i = 0; i < width; i++)
        frame_put_rune(pen->frame, row, column + i, ROLE_RULE, pen->utf8 ? 0x2500 : '-');
}

/* Bytes of the next line: as many words as fit, at least one. */
static size_t line_length(const char *text, int width)
{
    const size_t fits = utf8_clip(text, width);
    size_t end = fits;

    if (text[fits] == '\0')
        return fits;
    while (end > 0 && text[end] != ' ')
        end--;
    return end > 0 ? end : fits;
}

int pen_wrap_from(const struct pen *pen, int row, int column, int width, int skip, int rows,
                  enum role role, const char *text)
{
    char text_memory[4096];
    int taken = 0;

    /* Substitutes are wider, so they come before the breaking into lines. */
    text = writable(pen, text, text_memory, sizeof text_memory);
    while (*text && (rows == 0 || taken < rows)) {
        char memory[1024];
        struct strbuf line = STRBUF(memory);
        const size_t length = line_length(text, width);

        if (length == 0)
            break;
        strbuf_add_bytes(&line, text, length);
        text += length;
        text += strspn(text, " ");
        if (skip-- > 0)
            continue;
        if (rows > 0)
            frame_put(pen->frame, row + taken, column, width, role, memory);
        taken++;
    }
    return taken;
}

int pen_wrap(const struct pen *pen, int row, int column, int width, int rows, enum role role,
             const char *text)
{
    return pen_wrap_from(pen, row, column, width, 0, rows, role, text);
}
