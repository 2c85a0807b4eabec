/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_MOVE_H
#define SILLET_MODEL_SETUP_MOVE_H

#include <stdbool.h>

#include "model/figure/figure.h"
#include "model/setup/moves.h"
#include "model/reading/place.h"
#include "model/setup/reset.h"
#include "model/setup/setup.h"
#include "model/reading/work_mark.h"

/*
 * The moves as data: what a pass's readings ask for, in the trade's order, by how much, and
 * what has been done about it since. Decided here once; the bench, the job list, the shelf and
 * the customer's sheet only put it into words.
 */

/* In the order in which one string's state outweighs another's. */
enum move_state {
    MOVE_UNKNOWN, /* something has to be read or wanted first: `needs` */
    MOVE_GOOD,    /* on target, leave it */
    MOVE_WITHIN,  /* off target, but by no more than its own uncertainty */
    MOVE_DUE,
};

/* What an unknown move waits for, in the order in which a tech would supply it. */
enum move_need {
    NEED_NOTHING,
    NEED_BOARD, /* scale, strings, frets, join fret */
    NEED_RELIEF,
    NEED_RELIEF_TARGET,
    NEED_GAP,
    NEED_ACTION,
    NEED_TARGETS, /* for action and nut gap */
    NEED_EXPOSURE,
};

struct move_amount {
    bool known;
    bool due;
    /* Rod: relief to let in (+) or take out (-), mm. Slot: fill (+) or cut (-), mm. Saddle:
     * raise (+) or lower (-), mm. Reset: the angle to set the neck back by, rad. */
    double value;
    double u; /* expanded, k = 2 */
};

struct move {
    enum move_state state; /* by the readings alone */
    enum move_need needs;
    struct move_amount amount;                  /* rod and reset */
    struct move_amount string[STRINGS_MAX + 1]; /* slots and saddle, by string number */
    double most_u;                              /* the largest u of the amounts that are due */
    bool any_up, any_down; /* whether any amount, due or not, is above or below 0 */
    bool inner_follow;     /* inner strings are off, but move only with the outer two */
    int done_by;           /* the work line that marks it done since the readings, 0 for none */
};

/* The moves of a pass, and what they come to. */
struct move_set {
    struct move move[MOVE_COUNT_];
};

enum move_verdict { MOVES_READY, MOVES_WORK, MOVES_RESET, MOVES_MEASURE };

/*
 * Finds the moves that a state's readings ask for. A reset that is not known to be due and not
 * known not to be is MOVE_UNKNOWN. `done_by` is left 0.
 */
void move_set_find(const struct setup *setup, const struct figures *figures,
                   const struct move_choice *choice, enum reset_verdict reset,
                   struct move_set *ret_moves);

/* Adds which of them the work lines since a pass mark done. */
void move_set_mark(struct move_set *moves, struct place place);

/* Off target by the readings, and marked done since: the next pass has to prove it. */
bool move_is_done(const struct move *move);

/* Due, and not done since. */
bool move_is_open(const struct move *move);

/* Not known, though it should be before the instrument goes back. Exposure, which alone tells
 * whether a reset is due, need not be read. */
bool move_is_missed(const struct move *move);

/* How many are such: move_is_open, move_is_done, move_is_missed. */
int move_set_count(const struct move_set *moves, bool (*is_such)(const struct move *move));

/* What it all comes to: a reset first, else open moves, else something to measure, else ready. A
 * move that was marked done has to be measured again. */
enum move_verdict move_set_verdict(const struct move_set *moves);

/* "ready", "work", "reset", "measure". */
const char *move_verdict_name(enum move_verdict verdict);

/* The figure that a move's amount comes from; of MOVE_COUNT_ the relief. */
enum figure_id move_figure(enum move_kind kind);

/* Whether it has an amount for each string, in `string`; else one in `amount`. */
bool move_is_by_string(enum move_kind kind);

#endif
