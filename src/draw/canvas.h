/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_CANVAS_H
#define SILLET_DRAW_CANVAS_H

#include "base/status.h"
#include "draw/pen.h"

/*
 * A picture in dots, two across and four down in every character cell: braille where
 * UTF-8 is spoken, ASCII strokes where not. Dots belong to layers; a cell is coloured by
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

/* Sets one dot, (0, 0) at the top left; outside nothing happens. */
void canvas_dot(struct canvas *canvas, enum canvas_layer layer, int x, int y);

/* The dots from one place to another, both in dots and not rounded: one in every column, or in
 * every row where it is steep, and of these the ones that `dash` divides. */
void canvas_line(struct canvas *canvas, enum canvas_layer layer, const double from[2],
                 const double to[2], int dash);

/* Puts the picture into the frame with its upper left corner at (row, column). */
void canvas_draw(const struct canvas *canvas, const struct pen *pen, int row, int column);

#endif
