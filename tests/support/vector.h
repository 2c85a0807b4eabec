/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_VECTOR_H
#define SILLET_TESTS_VECTOR_H

#include <stdbool.h>

/* The lines of a PDF's page in mm, as poppler's pdftocairo reads them back. */

enum { VECTOR_PATHS_MAX = 400, VECTOR_POINTS_MAX = 8 };

enum vector_line { VECTOR_SOLID, VECTOR_DASHED, VECTOR_DOTTED };

struct vector_path {
    enum vector_line line;
    bool black; /* to cut by; else grey, to read by */
    double x_mm[VECTOR_POINTS_MAX], y_mm[VECTOR_POINTS_MAX];
    int count;
};

struct vector {
    double width_mm, height_mm; /* of the page */
    struct vector_path path[VECTOR_PATHS_MAX];
    int count;
};

/* Whether the machine has that tool. */
bool vector_can_read(void);

/* Reads a page, counted from 1; fails the test if it cannot. Letters and fills are left out. */
void vector_read(const char *pdf, int page, struct vector *ret_vector);

/* Whether a path is one line across, or one down, the page. */
bool vector_is_across(const struct vector_path *path);
bool vector_is_down(const struct vector_path *path);
double vector_length_mm(const struct vector_path *path);

#endif
