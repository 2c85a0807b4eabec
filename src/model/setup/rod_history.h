/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_ROD_HISTORY_H
#define SILLET_MODEL_SETUP_ROD_HISTORY_H

#include <stdbool.h>

#include "base/status.h"

/*
 * What the logged turns of a rod teach: how much relief a turn moves, the next turn to
 * make, and whether the rod still answers.
 * Source of the thresholds: memory; of the fit: least squares through the origin.
 */

enum { ROD_STEPS_MAX = 1024 };

/* One turn between two passes. */
struct rod_step {
    double turns;     /* + tightens, not 0 */
    double before_mm; /* relief read before it */
    double after_mm;  /* and after it */
};

struct rod_fit {
    double per_turn_mm;   /* sum(turns x change)/sum(turns^2): negative, a turn takes relief out */
    double left_mm;       /* rms of what the line leaves over */
    double per_turn_u_mm; /* expanded uncertainty of per_turn, k = 2, from the readings' */
    int count;
};

/* Whether a turn's answer is known beyond its uncertainty, whichever way it goes. */
bool rod_history_is_sure(const struct rod_fit *fit);

/* Relief per turn from all steps. reading_u_mm: standard uncertainty of one relief
 * reading, >= 0. STATUS_ABSENT without steps, STATUS_DOMAIN for more than ROD_STEPS_MAX,
 * a number that is not finite or a turn of 0; STATUS_RANGE on overflow. */
enum status rod_history_fit(const struct rod_step *steps, int count, double reading_u_mm,
                            struct rod_fit *ret_fit);

/* The turn that should bring the relief to its target. STATUS_DOMAIN when per_turn_mm is 0: a rod
 * that does nothing is not turned further. */
enum status rod_history_find_next_turn(double per_turn_mm, double relief_mm, double target_mm,
                                       double *ret_turns);

/* The relief to expect after a turn. */
enum status rod_history_predict(double per_turn_mm, double relief_mm, double turns,
                                double *ret_relief_mm);

enum rod_answer {
    ROD_ANSWER_UNKNOWN, /* the steps are too small, or too few, to tell */
    ROD_ANSWERS,
    ROD_ANSWERS_BACKWARDS, /* the last turn moved the relief the wrong way */
    ROD_ANSWERS_NO_LONGER, /* the last turns did less than they should, or nothing of use */
};

/* Of the change that the earlier steps promise, this much must come (memory). */
#define ROD_LEAST_SHARE 0.25
/* With none that promise anything, so much turned one way must do this much a turn: a rod that does
 * less takes more turns than it has (memory). */
#define ROD_LEAST_TURN      0.5
#define ROD_LEAST_ANSWER_MM 0.1
/* Half a turn without an answer is everyday, a loose nut takes up as much; so much one way says
 * that the rod is at its end (memory). */
#define ROD_END_TURN 1.0

/*
 * Judges the last step against the ones before it, where these surely answer; else whether the last
 * turns one way, taken together, did anything of use. Only differences beyond the expanded
 * uncertainty of a change, 2 sqrt(2) reading_u_mm, count. A rod that moved the wrong way both when
 * it was tightened and when it was slackened turns the other way, and answers. Failures as
 * rod_history_fit.
 */
enum status rod_history_judge(const struct rod_step *steps, int count, double reading_u_mm,
                              enum rod_answer *ret_answer);

/* How far it was turned one way at the last, doing nothing of use all the while; 0 where it did.
 * The steps are good ones of rod_history_judge. */
double rod_history_silent_turns(const struct rod_step *steps, int count, double reading_u_mm);

/* A reading beside what was predicted for it. */
struct rod_comparison {
    double off_mm; /* read - predicted */
    bool within;   /* |off| <= the expanded uncertainty of the difference */
};

/* predicted_u_mm and read_u_mm: expanded uncertainties of the two, >= 0. STATUS_DOMAIN for
 * a number that is not finite or a negative uncertainty. */
enum status rod_history_compare(double predicted_mm, double predicted_u_mm, double read_mm,
                                double read_u_mm, struct rod_comparison *ret_comparison);

#endif
