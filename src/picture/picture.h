/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PICTURE_PICTURE_H
#define SILLET_PICTURE_PICTURE_H

#include <stdbool.h>

#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * A drawing as points, in the units of what it shows: x to the right, y up. What stands where
 * is settled here, once; the screen and the paper only scale it, each to its own room.
 * pictures.h has the drawings there are.
 */

enum picture_role {
    PICTURE_CROWN, /* the crowns, from the nut's front edge on */
    PICTURE_NUT,   /* from the board up to the string in its slot */
    PICTURE_POST,  /* where the tech looks, from bottom to top */
    PICTURE_OTHER, /* what the main line is held against */
    PICTURE_MAIN,
    PICTURE_MARK, /* what the reading in hand measures */
    PICTURE_ROLE_COUNT_
};

/* Two lines over the history's passes, and a post, are the most points that any has. */
enum {
    PICTURE_POINTS_MAX = 520,
    PICTURE_LINES_MAX = FRETS_MAX + 8,
    PICTURE_SPOTS_MAX = STRINGS_MAX * FRETS_MAX,
    PICTURE_LEVELS_MAX = 3
};

struct picture_point {
    double x, y;
};

/* Points joined to a line; a line of one point is that point. */
struct picture_line {
    enum picture_role role;
    bool read; /* each of its points is a reading */
    int first, count;
};

/* A reading that stands by itself. */
struct picture_spot {
    struct picture_point at;
    unsigned strings; /* bit s: read on string s */
    bool in_hand;
};

/* What is written under the drawing. */
struct picture_tick {
    double x;
    int number;       /* of the fret; of a trend, the pass's index in the history */
    const char *word; /* behind it; NULL: none */
    bool in_hand;
};

/* What is written beside it. */
struct picture_level {
    double y;
    char text[16];
};

struct picture {
    struct picture_point low, high; /* what it reaches from and to */
    bool has_band;                  /* from band_low to band_high nothing is done */
    double band_low, band_high;
    struct picture_point points[PICTURE_POINTS_MAX];
    struct picture_line lines[PICTURE_LINES_MAX];
    struct picture_spot spots[PICTURE_SPOTS_MAX];
    struct picture_tick ticks[FRETS_MAX + 1];
    struct picture_level levels[PICTURE_LEVELS_MAX];
    int point_count, line_count, spot_count, tick_count, level_count;
};

/* An empty drawing that reaches that far at least. */
void picture_begin(struct picture *picture, struct picture_point low, struct picture_point high);

/* Begins a line, and takes it on to a point; the drawing reaches farther where it has to.
 * What there is no room for is dropped,
 * here and below: points past the last line's end stay with it. */
struct picture_line *picture_begin_line(struct picture *picture, enum picture_role role);
void picture_to(struct picture *picture, double x, double y);

/* A line of two points. */
void picture_segment(struct picture *picture, enum picture_role role, struct picture_point from,
                     struct picture_point to);

/* A reading of a string; readings of several strings that lie on each other (the same x, y
 * nearer than `apart`) are one spot. */
void picture_add_spot(struct picture *picture, const struct picture_spot *spot, double apart);

/* The text is the caller's to write. */
struct strbuf picture_add_level(struct picture *picture, double y);

bool picture_has(const struct picture *picture, enum picture_role role);

/* Where x lies between left and right, and y between top and bottom: 0 to 1, and the middle
 * where the drawing has no width or height. */
double picture_across(const struct picture *picture, double x);
double picture_down(const struct picture *picture, double y);

/* How many times larger than along x it shows lengths along y, in room of that size. */
double picture_times(const struct picture *picture, double width, double height);

#endif
