/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_PITCH_ASSUMPTION_H
#define SILLET_MODEL_PITCH_PITCH_ASSUMPTION_H

#include <stdbool.h>

#include "model/pitch/intonation.h"
#include "model/pitch/intonation_calibrate.h"

/*
 * What a predicted pitch assumes, and what a string would be if an assumption were off. The rows
 * stand in pitch_assumption_table.h.
 */

enum pitch_assumption_id {
#define ASSUMPTION(id, ...) PITCH_ASSUMPTION_##id,
#include "model/pitch/pitch_assumption_table.h"
#undef ASSUMPTION
    PITCH_ASSUMPTION_COUNT_
};

/* What an assumption is about. */
enum pitch_assumption_about {
    ABOUT_ENDS,
    ABOUT_DEPTH,
    ABOUT_PRESSED, /* depth and ends together */
    ABOUT_DISTANCE,
    ABOUT_FREE,
    ABOUT_MODULUS, /* a share, as are core and mass */
    ABOUT_CORE,
    ABOUT_CORE_MM,
    ABOUT_MASS,
    ABOUT_CONTACT,
    ABOUT_ACTION,
    ABOUT_GAP,
};

/* How the truth may lie about the centre. */
enum pitch_assumption_shape {
    SHAPE_NORMAL,
    SHAPE_RECTANGLE, /* anywhere within the width alike (GUM 4.3.7) */
    SHAPE_TRIANGLE,  /* likeliest at the centre, falling to nothing at either end (GUM 4.3.9) */
    SHAPE_FALLING,   /* the upper half of a triangle: likeliest at the centre, never below */
    SHAPE_UPWARD,    /* the upper half of a rectangle */
};

struct pitch_assumption {
    enum pitch_assumption_about about;
    double centre; /* NaN: as used */
    enum pitch_assumption_shape shape;
    double size; /* NaN: the record says it */
    const char *label, *source;
};

const struct pitch_assumption *pitch_assumption_get(enum pitch_assumption_id id);

/* Where a shape is tried, in sizes from the centre; and its moments about the centre, E x^1 to
 * E x^8, for a size of 1. */
enum { PITCH_ASSUMPTION_POINTS = 2, PITCH_ASSUMPTION_MOMENTS = 8 };
struct pitch_assumption_ways {
    double at[PITCH_ASSUMPTION_POINTS];
    double moment[PITCH_ASSUMPTION_MOMENTS];
};
const struct pitch_assumption_ways *pitch_assumption_ways(enum pitch_assumption_shape shape);

/* The variance of a shape of size 1. */
double pitch_assumption_variance(enum pitch_assumption_shape shape);

/* Everything that one string's predictions are made from. The crowns of a setup are its own. */
struct pitch_case {
    bool has_now, has_target;
    struct intonation_setup now;    /* as it stands */
    struct intonation_setup target; /* after the moves, from which setbacks are found */
    struct intonation_ends ends;    /* as it stands */
    double first_mm, action_mm;     /* where fret 1 and the action fret are */
    bool mass_follows_core;         /* the mass was found from the gauge of a plain wire */
};

/* The same string if a quantity were off by `by`, cut to what is possible. PRESSED is not moved. */
void pitch_assumption_move(enum pitch_assumption_about about, double by, struct pitch_case *moved);

/* Press depth and clamped ends set, cut to what is possible. */
void pitch_assumption_set_pressed(double depth_mm, double ends, struct pitch_case *moved);

#endif
