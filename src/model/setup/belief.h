/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_BELIEF_H
#define SILLET_MODEL_BELIEF_H

#include "model/setup/estimate.h"
#include "model/setup/setup.h"
#include "model/setup/survey_rod.h"

/*
 * What all passes of a visit together say about an instrument. Between two passes only the moves
 * change it, so with the neck's curvature, the height of each slot over the neck and that of each
 * saddle over the body as unknowns every reading of relief, gap and action is linear in them. Each
 * reading adds to what is known, and a move that was made shifts its unknown, with the error of the
 * hand that made it.
 */

/* What is read; the relief stands at string 0. */
enum belief_row { BELIEF_RELIEF, BELIEF_GAP, BELIEF_ACTION, BELIEF_ROWS_ };

/* Whether a reading lies too far from what all others say. It stays so until it is read again. */
enum questioned {
    QUESTIONED_NOT,
    QUESTIONED_HERE,   /* one of the last pass that was taken in, */
    QUESTIONED_BEFORE, /* or of an earlier one, and nobody has read it again */
};

/* How often something was read since it moved on its gauge (belief_again.h). */
struct read_again {
    int times;
    double mean_mm;        /* of these readings, where it stands now */
    struct estimated then; /* what was believed of it after the last pass */
    /* What it moved by since the first of them, less than the gauge tells: as far as is known, and
     * the variance of what is not. */
    double moved_mm, moved_mm2;
};

struct belief {
    bool known; /* the board can be reckoned on */
    int strings;
    int read_strings; /* those that are read; the others lie as one of them does */
    struct estimate estimate;
    bool has[BELIEF_ROWS_][STRINGS_MAX + 1]; /* something was read of it */
    bool own[BELIEF_ROWS_][STRINGS_MAX + 1]; /* and of the string itself, not taken from others */
    bool once[BELIEF_ROWS_]
             [STRINGS_MAX + 1]; /* by one reading alone, that nothing else bears out */
    bool fresh[BELIEF_ROWS_][STRINGS_MAX + 1]; /* and read since it was last worked on */
    /* Read by itself, not questioned, not worked on since: also while a pass is but begun. */
    bool holds[BELIEF_ROWS_][STRINGS_MAX + 1];
    /* What a row tells was found good in the pass before, and nothing has touched it since: the
     * relief for the rod, gaps for the slots, actions for the saddle. */
    bool settled[BELIEF_ROWS_];
    /* A row's work since the pass before is marked done, and what is read says that it was not. */
    bool undone[BELIEF_ROWS_];
    bool rod_turned;       /* since the last relief was read */
    struct survey_rod rod; /* what the turns up to the last pass taught */
    /* As last read, mm, by string; absent since the saddle was worked on. */
    struct maybe exposure[STRINGS_MAX + 1];
    /* What is questioned is not in the estimate; `off` is how far it lies from the others, and
     * waits for a second reading that says the same. */
    enum questioned questioned[BELIEF_ROWS_][STRINGS_MAX + 1];
    struct maybe off[BELIEF_ROWS_][STRINGS_MAX + 1];
    /* What was known before the last pass taken in was wrong: by how much, mm. */
    struct maybe wrong[BELIEF_ROWS_][STRINGS_MAX + 1];
    struct read_again again[BELIEF_ROWS_][STRINGS_MAX + 1];
};

/* Errors of a hand, standard deviations, from common practice; docs/method.md. */
#define BELIEF_FEELER_MM   0.008 /* a leaf held, beside its step */
#define BELIEF_RULE_MM     0.04  /* a rule sighted, beside its step */
#define BELIEF_SLOT_MM     0.02  /* a slot cut or filled */
#define BELIEF_SADDLE_MM   0.05  /* a saddle, all strings together */
#define BELIEF_STRING_MM   0.03  /* and each by itself */
#define BELIEF_RELIEF_MM   0.02  /* a rod turned until the relief is right */
#define BELIEF_UNEVEN      0.6   /* of a change in relief: a rod does not bend a neck evenly */
#define BELIEF_UNEVEN_NUT  0.1   /* the same at the nut */
#define BELIEF_GATE        4.0   /* deviations beyond which a reading is questioned */
#define BELIEF_ANYTHING_MM 1e4   /* what is not known at all */
#define BELIEF_KNOWN_MM    10    /* what may be farther off than this is not known either */

/* Nothing known yet. */
void belief_begin(struct belief *belief, const struct setup *setup);

/* The moves, as made. The rod: until the relief was this, give or take `deviation_mm`. */
void belief_turn_rod(struct belief *belief, const struct setup *setup, double relief_mm,
                     double deviation_mm);
void belief_work_slot(struct belief *belief, int string, double mm);
/* `mm` by string; those that are 0 were left. */
void belief_work_saddle(struct belief *belief, const double mm[STRINGS_MAX + 1]);

/* Moves that may have been made, nobody knows: by as much as this. */
void belief_doubt_rod(struct belief *belief, const struct setup *setup, double mm);
void belief_doubt_slot(struct belief *belief, int string, double mm);
void belief_doubt_saddle(struct belief *belief, int string, double mm);

/* Something that this row reads of a string was worked on, of the relief with string 0: it has to
 * be read again, and so has the action, after the rod that of all strings. What was questioned
 * before is no matter then. */
void belief_age(struct belief *belief, enum belief_row row, int string);

/* The first string, from the bass side, that was read and not since it was worked on; 0 for none.
 */
int belief_stale(const struct belief *belief, enum belief_row row);

/*
 * What is believed, mm: the relief; the gap and the action of a string, which are those of its
 * course where it is not read by itself. False where it is not known to within BELIEF_KNOWN_MM, or
 * was worked on and not read since. `setup` gives the board and what single crowns stand off by.
 */
bool belief_relief(const struct belief *belief, const struct setup *setup,
                   struct estimated *ret_mm);
bool belief_gap(const struct belief *belief, const struct setup *setup, int string,
                struct estimated *ret_mm);
bool belief_action(const struct belief *belief, const struct setup *setup, int string,
                   struct estimated *ret_mm);

/* The same of the gap with the string held down on fret 3. */
bool belief_held_gap(const struct belief *belief, const struct setup *setup, int string,
                     struct estimated *ret_mm);

/* The gap once the string has that action. */
bool belief_gap_at_action(const struct belief *belief, const struct setup *setup, int string,
                          double action_mm, struct estimated *ret_mm);

/* What a change of the gap at a constant action asks of the slot, and a change of the action of
 * the saddle, the slot as it is: mm for one mm. */
double belief_slot_per_gap(const struct setup *setup, int string);
double belief_saddle_per_action(const struct setup *setup, int string);

#endif
