/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_RASTER_H
#define SILLET_TESTS_RASTER_H

#include <stdbool.h>

/* Pages of a PDF as pictures, to be measured as with a rule. */

enum { RASTER_DPI = 300 };

struct raster {
    int width, height;
    unsigned char *grey; /* 0 black to 255 white, row by row */
};

/* Whether the machine has poppler's tools, which draw the pages. */
bool raster_can_draw(void);

/* Draws a page of a PDF, counted from 1; fails the test if it cannot. */
void raster_read(const char *pdf, int page, struct raster *ret_raster);
void raster_done(struct raster *raster);

/* Converts mm to pixels, and pixels to mm. */
int raster_pixel(double mm);
double raster_mm(double pixels);

/* The length of the longest dark run of a row between two columns, in pixels, and its first
 * column. */
int raster_run(const struct raster *raster, int row, int from, int to, int *ret_first);

/* How dark a row (column) is between two columns (rows), 0 white to 1 black. */
double raster_row_ink(const struct raster *raster, int row, int from, int to);
double raster_column_ink(const struct raster *raster, int column, int from, int to);

/* The output of a command line, which the caller frees; fails the test if the command fails. */
char *raster_command(const char *command);

#endif
