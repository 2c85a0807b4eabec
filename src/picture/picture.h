/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PICTURE_PICTURE_H
#define SILLET_PICTURE_PICTURE_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * A drawing as points, in the units of what it shows: x to the right, y up. Everything is placed
 * here, once; screen and paper only scale it to their size. The drawings are in pictures.h.
 */

enum picture_role {
    PICTURE_CROWN, /* the crowns, from the nut's front edge on */
    PICTURE_NUT,   /* from the board up to the string in the slot */
    PICTURE_POST,  /* a vertical line where the tech looks */
    PICTURE_OTHER, /* what the main line is compared with */
    PICTURE_MAIN,
    PICTURE_MARK, /* what the reading in hand measures */
    PICTURE_ROLE_COUNT_
};

/* Enough for the largest drawing: two lines over the history's passes, and a post. */
enum {
    PICTURE_POINTS_MAX = 520,
    PICTURE_LINES_MAX = FRETS_MAX + 8,
    PICTURE_SPOTS_MAX = STRINGS_MAX * FRETS_MAX,
    PICTURE_LEVELS_MAX = 3,
    PICTURE_LABELS_MAX = 12
};

struct picture_point {
    double x, y;
};

/* Points joined to a line; a line of one point is a dot. */
struct picture_line {
    enum picture_role role;
    bool read; /* each of its points is a reading */
    int first, count;
};

/* A single reading, not part of a line. */
struct picture_spot {
    struct picture_point at;
    unsigned strings; /* bit s: read on string s */
    bool in_hand;
};

/* A label under the drawing. */
struct picture_tick {
    double x;
    int number;       /* the fret's; in a trend, the pass's index in the history */
    const char *word; /* after the number; NULL: none */
    bool in_hand;
};

/* A label beside the drawing. */
struct picture_level {
    double y;
    char text[16];
};

/* A word in the drawing that ends at a point, or one letter on it: it tells lines apart where there
 * is no colour. */
struct picture_label {
    struct picture_point at;
    enum picture_role role;
    const char *word; /* static */
};

struct picture {
    struct picture_point low, high; /* the corners */
    bool has_band;                  /* values from band_low to band_high are left alone */
    double band_low, band_high;
    struct picture_point points[PICTURE_POINTS_MAX];
    struct picture_line lines[PICTURE_LINES_MAX];
    struct picture_spot spots[PICTURE_SPOTS_MAX];
    struct picture_tick ticks[FRETS_MAX + 1];
    struct picture_level levels[PICTURE_LEVELS_MAX];
    struct picture_label labels[PICTURE_LABELS_MAX];
    int point_count, line_count, spot_count, tick_count, level_count, label_count;
};

/* Begins an empty drawing that reaches at least from `low` to `high`. */
void picture_begin(struct picture *picture, struct picture_point low, struct picture_point high);

/* Begins a line, and adds a point to the last line; the drawing grows to hold it. Without room for
 * more points, they are dropped; without room for more lines, the last line goes on. */
struct picture_line *picture_begin_line(struct picture *picture, enum picture_role role);
void picture_to(struct picture *picture, double x, double y);

/* Adds a line of two points. */
void picture_segment(struct picture *picture, enum picture_role role, struct picture_point from,
                     struct picture_point to);

/* Adds a reading of a string. Readings of several strings that coincide (the same x, y closer than
 * `apart`) are one spot. */
void picture_add_spot(struct picture *picture, const struct picture_spot *spot, double apart);

/* Adds a label at y; the caller writes its text. */
struct strbuf picture_add_level(struct picture *picture, double y);

/* Adds a label; without room for more it is dropped. */
void picture_add_label(struct picture *picture, const struct picture_label *label);

bool picture_has(const struct picture *picture, enum picture_role role);

/* Where x is between left and right, and y between top and bottom: 0 to 1; 0.5 if the drawing has
 * no width or height. */
double picture_across(const struct picture *picture, double x);
double picture_down(const struct picture *picture, double y);

/* By how much heights are exaggerated: how many times larger y is shown than x, in an area of that
 * size. */
double picture_times(const struct picture *picture, double width, double height);

#endif
