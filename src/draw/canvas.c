/* SPDX-License-Identifier: MIT */
#include "draw/canvas.h"

#include <math.h>
#include <stdlib.h>

/* Bit of a dot in a braille character, by row and column (Unicode, block Braille Patterns). */
static const unsigned char braille_bits[CANVAS_DOWN][CANVAS_ACROSS] = {
    {0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}};

static const enum role layer_roles[LAYER_COUNT_] = {
    [LAYER_FRET] = ROLE_FRET,
    [LAYER_AFTER] = ROLE_AFTER,
    [LAYER_NOW] = ROLE_NOW,
    [LAYER_MARK] = ROLE_MARK,
};

/* Strokes for a layer with its dots in the upper, middle and lower part of a cell. */
static const char layer_strokes[LAYER_COUNT_][3] = {
    [LAYER_FRET] = {'\'', '^', ','},
    [LAYER_AFTER] = {'\'', ':', '.'},
    [LAYER_NOW] = {'"', '-', '_'},
    [LAYER_MARK] = {'|', '|', '|'},
};

enum status canvas_init(struct canvas *canvas, int rows, int columns)
{
    if (rows < 1 || columns < 1 || rows > FRAME_ROWS_MAX || columns > FRAME_COLUMNS_MAX)
        return STATUS_DOMAIN;
    unsigned char *dots = calloc((size_t)rows * (size_t)columns, LAYER_COUNT_);
    if (!dots)
        return STATUS_NO_MEMORY;
    *canvas = (struct canvas){.rows = rows, .columns = columns, .dots = dots};
    return STATUS_OK;
}

void canvas_done(struct canvas *canvas)
{
    free(canvas->dots);
    *canvas = (struct canvas){0};
}

static unsigned char *masks_at(const struct canvas *canvas, int row, int column)
{
    return canvas->dots + ((size_t)row * (size_t)canvas->columns + (size_t)column) * LAYER_COUNT_;
}

void canvas_dot(struct canvas *canvas, enum canvas_layer layer, int x, int y)
{
    if (x < 0 || y < 0 || x >= canvas->columns * CANVAS_ACROSS || y >= canvas->rows * CANVAS_DOWN)
        return;
    unsigned char *mask = &masks_at(canvas, y / CANVAS_DOWN, x / CANVAS_ACROSS)[layer];
    *mask = (unsigned char)(*mask | braille_bits[y % CANVAS_DOWN][x % CANVAS_ACROSS]);
}

void canvas_line(struct canvas *canvas, enum canvas_layer layer, const double from[2],
                 const double to[2], int dash)
{
    const int along = fabs(to[1] - from[1]) > fabs(to[0] - from[0]) ? 1 : 0;
    const double *start = from[along] <= to[along] ? from : to;
    const double *end = start == from ? to : from;
    const double length = end[along] - start[along];

    for (int at = (int)lround(start[along]); at <= (int)lround(end[along]); at++) {
        const double share = length > 0 ? fmin(1, fmax(0, (at - start[along]) / length)) : 0;
        const int across =
            (int)lround(start[1 - along] + share * (end[1 - along] - start[1 - along]));

        if (at % dash == 0)
            canvas_dot(canvas, layer, along == 0 ? at : across, along == 0 ? across : at);
    }
}

/* The third of the cell that a mask's dots are in on average. */
static int height_of(unsigned char mask)
{
    int sum = 0, count = 0;

    for (int y = 0; y < CANVAS_DOWN; y++)
        for (int x = 0; x < CANVAS_ACROSS; x++)
            if (mask & braille_bits[y][x]) {
                sum += y;
                count++;
            }
    if (2 * sum < 2 * count)
        return 0;
    return 2 * sum > 4 * count ? 2 : 1;
}

static void draw_cell(const struct pen *pen, int row, int column, const unsigned char *masks)
{
    int top = -1;
    unsigned all = 0;

    for (int layer = 0; layer < LAYER_COUNT_; layer++)
        if (masks[layer]) {
            top = layer;
            all |= masks[layer];
        }
    if (top < 0)
        return;
    frame_put_rune(pen->frame, row, column, layer_roles[top],
                   pen->utf8 ? 0x2800 + all
                             : (unsigned char)layer_strokes[top][height_of(masks[top])]);
}

void canvas_draw(const struct canvas *canvas, const struct pen *pen, int row, int column)
{
    for (int y = 0; y < canvas->rows; y++)
        for (int x = 0; x < canvas->columns; x++)
            draw_cell(pen, row + y, column + x, masks_at(canvas, y, x));
}
