/* SPDX-License-Identifier: MIT */
#include "vector.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "raster.h"

static const double pt_mm = 25.4 / 72;

bool vector_can_read(void)
{
    return system("pdftocairo -v >/dev/null 2>&1") == 0;
}

/* The points of "M 1 2 L 3 4 ", carried over by the path's matrix; curves are passed over. */
static void read_points(const char *at, const double matrix[6], struct vector_path *path)
{
    double x, y;
    int length;

    while (path->count < VECTOR_POINTS_MAX &&
           sscanf(at, " %*1[ML] %lf %lf%n", &x, &y, &length) == 2) {
        path->x_mm[path->count] = (matrix[0] * x + matrix[2] * y + matrix[4]) * pt_mm;
        path->y_mm[path->count++] = (matrix[1] * x + matrix[3] * y + matrix[5]) * pt_mm;
        at += length;
    }
}

static void read_matrix(const char *words, double matrix[6])
{
    const char *at = strstr(words, "matrix(");

    if (at)
        assert_int_equal(sscanf(at, "matrix(%lf,%lf,%lf,%lf,%lf,%lf)", &matrix[0], &matrix[1],
                                &matrix[2], &matrix[3], &matrix[4], &matrix[5]),
                         6);
}

/* The words of one path, between its brackets. */
static void read_path(const char *words, struct vector *vector)
{
    struct vector_path path = {.line = VECTOR_SOLID,
                               .black = strstr(words, "stroke:rgb(0%,0%,0%)") != NULL};
    double matrix[6] = {1, 0, 0, 1, 0, 0}, dash = 0;
    const char *dashes = strstr(words, "stroke-dasharray:"), *data = strstr(words, " d=\"");

    if (!strstr(words, "stroke:rgb") || !data)
        return;
    if (dashes && sscanf(dashes, "stroke-dasharray:%lf", &dash) == 1)
        path.line = dash * pt_mm < 1 ? VECTOR_DOTTED : VECTOR_DASHED;
    read_matrix(words, matrix);
    read_points(data + 4, matrix, &path);
    if (path.count < 2)
        return;
    assert_true(vector->count < VECTOR_PATHS_MAX);
    vector->path[vector->count++] = path;
}

void vector_read(const char *pdf, int page, struct vector *ret_vector)
{
    char command[700];

    snprintf(command, sizeof command, "pdftocairo -svg -origpagesizes -noshrink -f %d -l %d '%s' -",
             page, page, pdf);
    char *text = raster_command(command);
    const char *size = strstr(text, " width=\"");

    *ret_vector = (struct vector){.count = 0};
    assert_non_null(size);
    assert_int_equal(sscanf(size, " width=\"%lfpt\" height=\"%lfpt\"", &ret_vector->width_mm,
                            &ret_vector->height_mm),
                     2);
    ret_vector->width_mm *= pt_mm;
    ret_vector->height_mm *= pt_mm;
    for (char *at = text; (at = strstr(at, "<path")) != NULL;) {
        char *end = strchr(at, '>');

        assert_non_null(end);
        *end = '\0';
        read_path(at, ret_vector);
        at = end + 1;
    }
    free(text);
}

bool vector_is_across(const struct vector_path *path)
{
    return path->count == 2 && fabs(path->y_mm[1] - path->y_mm[0]) < 1e-6;
}

bool vector_is_down(const struct vector_path *path)
{
    return path->count == 2 && fabs(path->x_mm[1] - path->x_mm[0]) < 1e-6;
}

double vector_length_mm(const struct vector_path *path)
{
    return hypot(path->x_mm[1] - path->x_mm[0], path->y_mm[1] - path->y_mm[0]);
}
