/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_WORKED_GEOMETRY_H
#define SILLET_TESTS_WORKED_GEOMETRY_H

#include <math.h>

/*
 * The worked example's geometry, entered by hand: lengths from its profile, string lines
 * and curvature from its figures (nine digits), so that one module can be tested alone.
 */
enum { WORKED_STRINGS = 6, WORKED_FRETS = 19, WORKED_JOIN = 12, WORKED_HEEL = 10 };

#define WORKED_SCALE_MM         (24.9 * 25.4)
#define WORKED_CURVATURE_PER_MM 0.0351000723e-3
#define WORKED_TENSION_N        696.719833

static const double worked_setback_mm[WORKED_STRINGS] = {1.5, 2.5, 1.8, 2.4, 3.0, 3.6};
static const double worked_nut_mm[WORKED_STRINGS] = {0.271136904, 0.287202893, 0.347946572,
                                                     0.351466845, 0.412210525, 0.444342501};
static const double worked_saddle_mm[WORKED_STRINGS] = {4.50137217, 4.69107377, 5.02313389,
                                                        5.42239058, 5.76462065, 6.13631065};
static const double worked_tension_n[WORKED_STRINGS] = {100.050714, 100.140177, 130.65997,
                                                        129.360243, 124.87543,  111.633299};
/* Plain strings and cores, inches. */
static const double worked_core_in[WORKED_STRINGS] = {.012, .016, .013, .014, .016, .018};

static inline double worked_fret_mm(int n)
{
    return WORKED_SCALE_MM * (1 - pow(2, -n / 12.0));
}

/* Crown of fret n over the chord through frets 1 and 12; straight from the heel fret on. */
static inline double worked_crown_mm(int n)
{
    const double heel = worked_fret_mm(WORKED_HEEL);
    const double low = worked_fret_mm(1);
    const double share = (worked_fret_mm(n) - low) / (worked_fret_mm(WORKED_JOIN) - low);
    const double to_heel = n < WORKED_HEEL ? heel - worked_fret_mm(n) : 0;
    const double at_low = WORKED_CURVATURE_PER_MM * (heel - low) * (heel - low) / 2;
    return WORKED_CURVATURE_PER_MM * to_heel * to_heel / 2 - at_low * (1 - share);
}

#endif
