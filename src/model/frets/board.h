/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FRETS_BOARD_H
#define SILLET_MODEL_FRETS_BOARD_H

#include <stdbool.h>

#include "base/status.h"
#include "model/reading/field.h"
#include "model/reading/finding.h"

/*
 * The geometry that does not move: where the frets stand on each string's scale, and how
 * the crowns rise and fall for unit curvature of the neck. Everything that the neck's
 * curve does to a string is one multiplication with these.
 *
 * Lanes: 1 .. strings are the strings, lane 0 is the middle scale (the mean of the outer
 * two), on which the neck itself is reckoned. Heights are over the chord, up positive.
 */

enum { LANE_MIDDLE = 0, LANES = STRINGS_MAX + 1 };

/* What a board is made from. Negative fret numbers mean: not given. */
struct board_plan {
    double scale_treble_mm, scale_bass_mm; /* equal on a single-scale board; > 0 */
    int strings;                           /* 1 .. STRINGS_MAX */
    int courses;                           /* that divide them evenly; 0: each string is one */
    int frets;                             /* 0 .. FRETS_MAX */
    int join_fret, heel_fret, action_fret, relief_fret, relief_end_low, relief_end_high;
    bool pocket;                        /* the neck sits in a pocket */
    bool unfretted;                     /* nothing is pressed down: no curve, no action fret */
    double setback_mm[STRINGS_MAX + 1]; /* by string */
    int from_fret[STRINGS_MAX + 1];     /* by string, where it starts, as outfit.h allows it */
};

struct board {
    int strings, frets;
    int join_fret;   /* -1: unknown or impossible */
    int heel_fret;   /* meaningful with has_curve */
    int action_fret; /* -1: impossible */
    int relief_fret, end_low, end_high;
    bool has_curve;  /* relief ends, heel: the neck's curve can be reckoned */
    bool has_relief; /* and the relief fret lies where the neck bends */
    /* A string that starts higher has a nut of its own at that fret, and its lane is measured from
     * there: its scale and contact are those of the part that sounds, and its stations before
     * that fret are negative. */
    int start_fret[LANES];
    double start_mm[LANES]; /* from the board's nut */
    double scale_mm[LANES];
    double contact_mm[LANES];                /* saddle contact Ls from the nut */
    double station_mm[LANES][FRETS_MAX + 1]; /* x(n); fret 0 is the nut */
    double bend[LANES][FRETS_MAX + 1];       /* z(n) / kappa, mm per (1/mm) */
    double ramp[LANES][FRETS_MAX + 1];       /* share of the fall-away at n, 0 .. 1 */
    double tilt[LANES];                      /* phi / kappa, rad per (1/mm) */
    double saddle_ride[LANES]; /* (w(x_b) - phi (Ls - x_b)) / kappa: chord to body at the saddle */
};

/* x(n) = L (1 - 2^(-n/12)), the 12th root of two: equal temperament. fret 0 .. FRETS_MAX. */
double board_station_mm(double scale_mm, int fret);

/*
 * Works a plan out. Impossible frets are named in `findings` and leave has_curve,
 * has_relief, action_fret or join_fret unset; STATUS_DOMAIN only when scale, strings or
 * frets make no board at all (ret_board untouched).
 */
enum status board_init(struct board *ret_board, const struct board_plan *plan,
                       struct findings *findings);

/* The board's scale on a lane, nut to saddle without setback, wherever its string starts. */
double board_scale_mm(const struct board *board, int lane);

/* The fret that a lane's nut gap is read over: the first that its string crosses. */
int board_gap_fret(const struct board *board, int lane);

/* Where the string is held down, so that only its slot tells at that fret. May lie beyond the last
 * fret. */
int board_hold_fret(const struct board *board, int lane);

/* The same board with every saddle contact at its scale length. */
void board_drop_setbacks(struct board *board);

#endif
