/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_PEN_H
#define SILLET_DRAW_PEN_H

#include <stdbool.h>

#include "draw/frame.h"

/* The parts of a screen draw with a pen: a frame, and whether UTF-8 may be used. */
struct pen {
    struct frame *frame;
    bool utf8;
};

/* As frame_put and frame_put_right; without UTF-8 the program's own signs (plus-minus,
 * middle dot, fractions) are written in ASCII and anything else as '?'. */
int pen_put(const struct pen *pen, int row, int column, int width, enum role role,
            const char *text);
int pen_put_right(const struct pen *pen, int row, int column, int width, enum role role,
                  const char *text);

/* As pen_put for a text that may be too long: its last column then has a mark that it is cut. */
int pen_put_cut(const struct pen *pen, int row, int column, int width, enum role role,
                const char *text);

/* A horizontal rule over [column, column + width). */
void pen_rule(const struct pen *pen, int row, int column, int width);

/*
 * Writes a text over at most `rows` rows, broken at blanks. Returns the rows used. With `rows` 0
 * it only counts them. */
int pen_wrap(const struct pen *pen, int row, int column, int width, int rows, enum role role,
             const char *text);

/* The same without the text's first `skip` lines. */
int pen_wrap_from(const struct pen *pen, int row, int column, int width, int skip, int rows,
                  enum role role, const char *text);

#endif
