/* SPDX-License-Identifier: MIT */
#include "draw/pen.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

/* The text as this pen may write it; in `memory` if it has to be changed. */
static const char *writable(const struct pen *pen, const char *text, char *memory, size_t size)
{
    struct strbuf out = strbuf_over(memory, size);

    if (pen->utf8)
        return text;
    utf8_add_ascii(&out, text);
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

int pen_wrap_from(const struct pen *pen, int row, int column, int width, int skip, int rows,
                  enum role role, const char *text)
{
    char text_memory[4096];
    int taken = 0;

    /* ASCII substitutes are wider, so they are made before the text is broken into lines. */
    text = writable(pen, text, text_memory, sizeof text_memory);
    while (*text && (rows == 0 || taken < rows)) {
        char memory[1024];
        struct strbuf line = STRBUF(memory);
        const size_t length = utf8_line(text, width);

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
