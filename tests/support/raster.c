/* SPDX-License-Identifier: MIT */
#include "raster.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { DARK = 170 };

bool raster_can_draw(void)
{
    return system("pdftoppm -v >/dev/null 2>&1 && pdftotext -v >/dev/null 2>&1") == 0;
}

void raster_read(const char *pdf, int page, struct raster *ret_raster)
{
    char command[700];
    int most = 0;

    snprintf(command, sizeof command, "pdftoppm -r %d -gray -f %d -l %d '%s'", RASTER_DPI, page,
             page, pdf);
    FILE *pipe = popen(command, "r");

    assert_non_null(pipe);
    assert_int_equal(fscanf(pipe, "P5 %d %d %d", &ret_raster->width, &ret_raster->height, &most),
                     3);
    assert_int_equal(most, 255);
    assert_int_equal(fgetc(pipe), '\n');
    assert_true(ret_raster->width > 0 && ret_raster->width < 20000);
    assert_true(ret_raster->height > 0 && ret_raster->height < 20000);
    const size_t size = (size_t)ret_raster->width * (size_t)ret_raster->height;
    ret_raster->grey = malloc(size);
    assert_non_null(ret_raster->grey);
    assert_int_equal(fread(ret_raster->grey, 1, size, pipe), size);
    assert_int_equal(pclose(pipe), 0);
}

void raster_done(struct raster *raster)
{
    free(raster->grey);
    raster->grey = NULL;
}

int raster_pixel(double mm)
{
    return (int)(mm * RASTER_DPI / 25.4);
}

double raster_mm(double pixels)
{
    return pixels * 25.4 / RASTER_DPI;
}

static unsigned char at(const struct raster *raster, int column, int row)
{
    assert_true(column >= 0 && column < raster->width && row >= 0 && row < raster->height);
    return raster->grey[(size_t)row * (size_t)raster->width + (size_t)column];
}

int raster_run(const struct raster *raster, int row, int from, int to, int *ret_first)
{
    int best = 0, run = 0;

    for (int column = from; column < to; column++) {
        run = at(raster, column, row) < DARK ? run + 1 : 0;
        if (run > best) {
            best = run;
            *ret_first = column - run + 1;
        }
    }
    return best;
}

double raster_row_ink(const struct raster *raster, int row, int from, int to)
{
    double ink = 0;

    for (int column = from; column < to; column++)
        ink += 1 - at(raster, column, row) / 255.0;
    return ink / (to - from);
}

double raster_column_ink(const struct raster *raster, int column, int from, int to)
{
    double ink = 0;

    for (int row = from; row < to; row++)
        ink += 1 - at(raster, column, row) / 255.0;
    return ink / (to - from);
}

char *raster_command(const char *command)
{
    enum { SIZE = 1 << 20 };
    char *text = calloc(1, SIZE);
    FILE *pipe = popen(command, "r");

    assert_non_null(text);
    assert_non_null(pipe);
    const size_t length = fread(text, 1, SIZE - 1, pipe);

    assert_true(length < SIZE - 1);
    assert_int_equal(pclose(pipe), 0);
    return text;
}
