/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_CANVAS_H
#define SILLET_DRAW_CANVAS_H

#include "base/status.h"
#include "draw/pen.h"

/*
 * A picture in dots, two across and four down in every character cell: braille with
 * UTF-8, ASCII strokes without. Dots belong to layers; a cell is coloured by
 * the uppermost layer that has a dot in it.
 */
enum canvas_layer { LAYER_FRET, LAYER_AFTER, LAYER_NOW, LAYER_MARK, LAYER_COUNT_ };

enum { CANVAS_ACROSS = 2, CANVAS_DOWN = 4 };

struct canvas {
    int rows, columns;
    unsigned char *dots; /* rows x columns x LAYER_COUNT_ masks */
};

enum status canvas_init(struct canvas *canvas, int rows, int columns);
void canvas_done(struct canvas *canvas);

/* Sets one dot, (0, 0) at the top left; does nothing outside the canvas. */
void canvas_dot(struct canvas *canvas, enum canvas_layer layer, int x, int y);

/* Draws a line between two places, given in dots and not rounded: one dot in every column, or in
 * every row if it is steep. Only every `dash`-th of these is set. */
void canvas_line(struct canvas *canvas, enum canvas_layer layer, const double from[2],
                 const double to[2], int dash);

/* Draws the picture into the frame with its upper left corner at (row, column). */
void canvas_draw(const struct canvas *canvas, const struct pen *pen, int row, int column);

#endif
