/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_WORKED_STRINGS_H
#define SILLET_TESTS_WORKED_STRINGS_H

#include <stdbool.h>

#include "model/pitch/intonation.h"
#include "model/strings/tension.h"

#include "worked_geometry.h"

/*
 * The six strings of the worked example with the figures that an independent program computed
 * for them to nine digits. Setbacks, tensions and string lines are in worked_geometry.h.
 */
struct worked_string {
    int semitone;
    double gauge_in, core_in;        /* core 0: plain */
    double nut_gap_in, action_64ths; /* as read */
    double cents_at_12;              /* as read; 0: not read */
    /* Figures. */
    bool slot_moves;
    double pitch_hz, mass_g_per_m, stress_share;
    double setback_predicted_mm, setback_best_mm, nut_advance_best_mm, cents_best_rms;
    double setback_change_mm;
    double cents[WORKED_FRETS + 1];
};

extern const struct worked_string worked_strings[WORKED_STRINGS];

/* Positions and heights of the crowns; the setups below point into one. */
struct worked_board {
    double fret_mm[WORKED_FRETS + 1];
    double crown_mm[WORKED_FRETS + 1];
};

/* Bends the board so that a straightedge over frets 1 and 12 shows this relief at fret 6. */
void worked_board_bend(double relief_mm, struct worked_board *ret_board);

struct string_build worked_build(const struct worked_string *string);

/* The state as found (relief .013 in), with nut and saddle as the figures give them. */
void worked_as_found(int index, struct worked_board *board, struct intonation_setup *ret_setup);

/* The state with every target met (relief .006 in and so on), for predicted setbacks. */
void worked_at_target(int index, struct worked_board *board, struct intonation_setup *ret_setup);

#endif
