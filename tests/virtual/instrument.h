/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_VIRTUAL_INSTRUMENT_H
#define SILLET_TESTS_VIRTUAL_INSTRUMENT_H

#include <stdbool.h>

#include "seeded.h"

/*
 * An instrument as things stand on the bench, in the body's frame, with a physics that the
 * program's model does not assume: the neck gets stiffer towards the heel, so that the strings'
 * pull bends it most near the nut; the rod bends it between the rod's own ends only; no two
 * crowns are quite level; the neck does not stop bending at a fret. Nothing here includes the
 * model. Lengths and heights mm, strings by number (1: treble), frets from the nut.
 */

enum { VIRTUAL_STRINGS = 8, VIRTUAL_FRETS = 24, VIRTUAL_POINTS = 200 };

enum virtual_bridge { VIRTUAL_BLANK, VIRTUAL_SCREW };

struct virtual_kind {
    const char *name;
    int strings, frets, join, action_fret;
    double scale_mm;
    double relief_mm, action_bass_mm, action_treble_mm, gap_bass_mm, gap_treble_mm; /* wanted */
    double exposure_mm, thread_mm;
    enum virtual_bridge bridge;
};

struct virtual_instrument {
    const struct virtual_kind *kind;
    int relief_fret;
    double heel_mm;                      /* the neck bends up to here */
    double pull[VIRTUAL_POINTS + 1];     /* shapes of the bend along the neck, from nut to heel, */
    double rod[VIRTUAL_POINTS + 1];      /* for 1 mm at the nut */
    double pulled_mm, rod_mm;            /* how much of each there is; the rod's counts down */
    double uneven_mm[VIRTUAL_FRETS + 1]; /* by crown */
    double fall_mm;                      /* of the last crown, over the body */
    double slot_mm[VIRTUAL_STRINGS + 1]; /* slot bottom over the board's line at the nut */
    double saddle_mm[VIRTUAL_STRINGS + 1]; /* saddle top over the body's line */
    double exposure_bass_mm, exposure_treble_mm;
    double per_turn_mm; /* what a turn of its rod does to the relief; 0: nothing */
    double loose_turns; /* its nut bites only after so many */
    bool stuck;         /* it does nothing: the relief stays as it is */
};

/* The kinds that the bench takes in turn. */
extern const struct virtual_kind virtual_kinds[];
extern const int virtual_kind_count;

/* An instrument as it comes in: relief, slots and saddle off by what a shop sees, some of them
 * not at all; with enough saddle over the bridge to be set up without a reset. */
void virtual_instrument_draw(struct virtual_instrument *made, const struct virtual_kind *kind,
                             struct seeded *seed);

/* What is wrong with it, each as often: its rod does nothing; its rod turns the other way; the
 * crown that the action is read over stands high, and its rod is sound, its nut three quarters of a
 * turn loose on one neck in two. */
void virtual_instrument_spoil(struct virtual_instrument *made, struct seeded *seed);

/* A turn of the rod, + tightens. */
void virtual_turn(struct virtual_instrument *made, double turns);

double virtual_station(const struct virtual_instrument *made, int fret);
double virtual_contact(const struct virtual_instrument *made);

/* What is true, without any gauge. */
double virtual_relief(const struct virtual_instrument *made);
double virtual_gap(const struct virtual_instrument *made, int string);
double virtual_action(const struct virtual_instrument *made, int string);

/* What is wanted on a string. */
double virtual_gap_wanted(const struct virtual_instrument *made, int string);
double virtual_action_wanted(const struct virtual_instrument *made, int string);

/* The gap that the string would have with the relief and its action as wanted: what its slot is to
 * be judged by. */
double virtual_gap_at_target(const struct virtual_instrument *made, int string);

/* Turns the rod until the relief is so. */
void virtual_set_relief(struct virtual_instrument *made, double relief_mm);

/* What the air does from one season to the next: the relief grows by so much, and the top lifts the
 * saddle, saddle and bridge together. */
void virtual_season(struct virtual_instrument *made, double relief_mm, double lift_mm);

/* Cuts (-) or fills (+) a slot; lowers (-) or raises (+) the saddle under a string. */
void virtual_work_slot(struct virtual_instrument *made, int string, double mm);
void virtual_work_saddle(struct virtual_instrument *made, int string, double mm);

/* Relief within 0.05 mm, but for one that is stuck; every gap within 0.06 mm, every action within
 * 0.3 mm of what is wanted. */
bool virtual_is_right(const struct virtual_instrument *made);

/* A draw from the normal distribution (Box and Muller 1958). */
double virtual_normal(struct seeded *seed, double deviation);

#endif
