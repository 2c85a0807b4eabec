/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_NECK_H
#define SILLET_DEMO_DEMO_NECK_H

#include "demo/demo_chance.h"
#include "model/reading/record.h"

/*
 * A made-up instrument as it really is, before any gauge reads it, in the body's frame. Its physics
 * is not the model's, so that the model can be wrong about it: the neck gets stiffer toward the
 * heel, the rod bends it between its own ends only, no two crowns are quite level, and the neck
 * does not stop bending at a fret. Lengths and heights mm, strings by number (1: treble), frets
 * from the nut.
 */

enum { DEMO_POINTS = 200 };

enum demo_end { DEMO_BASS, DEMO_TREBLE, DEMO_ENDS };

struct demo_neck {
    int strings, frets, join, action_fret, relief_fret;
    double scale_mm[STRINGS_MAX + 1], contact_mm[STRINGS_MAX + 1];
    double middle_mm;               /* the scale that the board is seen along from the side */
    double across[STRINGS_MAX + 1]; /* from treble, 0, to bass, 1 */
    double relief_mm;               /* wanted, and so are these, by end: */
    double action_mm[DEMO_ENDS], gap_mm[DEMO_ENDS];
    double heel_mm;               /* the neck bends up to here */
    double pull[DEMO_POINTS + 1]; /* shapes of the bend from nut to heel, 1 mm at the nut */
    double rod[DEMO_POINTS + 1];
    double pulled_mm, rod_mm;  /* how much of each there is; the rod's counts down */
    double per_turn_mm;        /* what a turn of the rod does to the relief, below 0; 0: none */
    double turned, turns_most; /* tightened so far; no more than that does anything */
    double damp_mm, lift_mm;   /* relief, and saddle, for a percent of moisture */
    double moisture_pct;       /* of the wood now */
    double uneven_mm[FRETS_MAX + 1];   /* by crown */
    double fall_mm;                    /* of the last crown, over the body */
    double slot_mm[STRINGS_MAX + 1];   /* slot bottom over the board's line at the nut */
    double saddle_mm[STRINGS_MAX + 1]; /* saddle top over the body's line */
    double exposure_mm[DEMO_ENDS];
};

/* Draws one as it comes in, built and strung as the record describes: scale, strings, frets, join
 * and targets must be there. Relief, slots and saddle are off by what a shop sees. */
void demo_neck_draw(struct demo_neck *neck, const struct record *record, double moisture_pct,
                    struct demo_chance *chance);

/* What is true. */
double demo_neck_relief(const struct demo_neck *neck);
double demo_neck_gap(const struct demo_neck *neck, int string);
double demo_neck_action(const struct demo_neck *neck, int string);

/* The rod is tightened by so many turns. */
void demo_neck_turn(struct demo_neck *neck, double turns);

/* The wood comes to that moisture; the strings pull by that factor as before. */
void demo_neck_season(struct demo_neck *neck, double moisture_pct);
void demo_neck_restring(struct demo_neck *neck, double factor);

/* Cuts (-) or fills (+) a slot; lowers (-) or raises (+) the saddle under a string. */
void demo_neck_slot(struct demo_neck *neck, int string, double mm);
void demo_neck_saddle(struct demo_neck *neck, int string, double mm);

#endif
