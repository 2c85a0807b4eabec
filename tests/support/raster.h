/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_RASTER_H
#define SILLET_TESTS_RASTER_H

#include <stdbool.h>

/* Pages of a PDF as pictures, measured as one would with a rule. */

enum { RASTER_DPI = 300 };

struct raster {
    int width, height;
    unsigned char *grey; /* 0 black to 255 white, row by row */
};

/* Whether the machine has poppler's tools, which draw the pages. */
bool raster_can_draw(void);

/* A page of a PDF, from 1; fails the test when it cannot be drawn. */
void raster_read(const char *pdf, int page, struct raster *ret_raster);
void raster_done(struct raster *raster);

/* Pixels of mm, and mm of pixels. */
int raster_pixel(double mm);
double raster_mm(double pixels);

/* The longest dark run of a row, in pixels, between two columns; its first column. */
int raster_run(const struct raster *raster, int row, int from, int to, int *ret_first);

/* How dark a row (column) is between two columns (rows), 0 white to 1 black. */
double raster_row_ink(const struct raster *raster, int row, int from, int to);
double raster_column_ink(const struct raster *raster, int column, int from, int to);

/* The output of a command line, to be freed; fails the test when it fails. */
char *raster_command(const char *command);

#endif
