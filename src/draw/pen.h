/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_PEN_H
#define SILLET_DRAW_PEN_H

#include <stdbool.h>

#include "draw/frame.h"

/* What the parts of a screen write with: a frame and the characters that it may use. */
struct pen {
    struct frame *frame;
    bool utf8;
};

/* frame_put and frame_put_right; without UTF-8 the program's own signs (a plus-minus, a
 * middle dot, fractions) are written in ASCII and anything else as '?'. */
int pen_put(const struct pen *pen, int row, int column, int width, enum role role,
            const char *text);
int pen_put_right(const struct pen *pen, int row, int column, int width, enum role role,
                  const char *text);

/* pen_put of a text that may be too long: its last column then says that it goes on. */
int pen_put_cut(const struct pen *pen, int row, int column, int width, enum role role,
                const char *text);

/* A horizontal rule over [column, column + width). */
void pen_rule(const struct pen *pen, int row, int column, int width);

/*
 * Writes a text over several rows, broken at blanks, at most `rows` rows. Returns how many
 * it took. With `rows` 0 it only counts. */
int pen_wrap(const struct pen *pen, int row, int column, int width, int rows, enum role role,
             const char *text);

/* The same without the text's first `skip` lines. */
int pen_wrap_from(const struct pen *pen, int row, int column, int width, int skip, int rows,
                  enum role role, const char *text);

#endif
