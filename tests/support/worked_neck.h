/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_WORKED_NECK_H
#define SILLET_TESTS_WORKED_NECK_H

#include "model/neck/neck_beam.h"
#include "worked_geometry.h"

/* The worked example's neck, entered by hand from its profile. */
struct worked_neck {
    struct neck_beam_string strings[WORKED_STRINGS];
    struct neck_beam beam;
};

static inline void worked_neck_fill(struct worked_neck *w)
{
    for (int i = 0; i < WORKED_STRINGS; i++)
        w->strings[i] =
            (struct neck_beam_string){WORKED_SCALE_MM, WORKED_SCALE_MM + worked_setback_mm[i],
                                      worked_nut_mm[i], worked_saddle_mm[i]};
    w->beam = (struct neck_beam){
        .make = {.board_thickness_mm = 6,
                 .board_modulus_mpa = 13000,
                 .shaft_modulus_mpa = 10300,
                 .slot_width_mm = 6.35,
                 .slot_depth_mm = 11,
                 .spline_modulus_mpa = 12600,
                 .recut_width_mm = 6,
                 .recut_depth_mm = 8},
        .scale_mm = WORKED_SCALE_MM,
        .first_fret_mm = worked_fret_mm(1),
        .low_end_mm = worked_fret_mm(1),
        .high_end_mm = worked_fret_mm(WORKED_JOIN),
        .heel_mm = worked_fret_mm(WORKED_HEEL),
        .relief_mm = worked_fret_mm(6),
        .last_fret_mm = worked_fret_mm(WORKED_FRETS),
        .width_nut_mm = 45,
        .width_join_mm = 55,
        .shaft_first_mm = 14,
        .shaft_heel_mm = 16,
        .crown_height_mm = 1.1,
        .curvature_per_mm = WORKED_CURVATURE_PER_MM,
        .tension_total_n = WORKED_TENSION_N,
        .string_count = WORKED_STRINGS,
        .strings = w->strings,
    };
}

#endif
