/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_PASS_READ_H
#define SILLET_MODEL_SETUP_PASS_READ_H

#include "model/setup/belief.h"

/* The readings of a pass as numbers with their doubt, ready to be taken in (belief_read.h). */

/* A reading as a number that a function of the unknowns should have. */
struct gauged {
    struct linear function;
    enum belief_row row;
    int string;
    double mm, deviation_mm;
    bool filled;                /* taken from its neighbours */
    bool odd;                   /* does not go with its row */
    const struct maybe *beside; /* the row; NULL for the relief */
};

enum { READINGS_MAX = 1 + 2 * STRINGS_MAX };

struct pass_read {
    struct gauged list[READINGS_MAX];
    int count;
    struct maybe row[BELIEF_ROWS_][STRINGS_MAX + 1]; /* of the strings from the nut */
};

/* Lists what a pass read, the relief first; of a row that is filled in, what is not known yet. */
void pass_read_list(const struct belief *belief, const struct setup *setup,
                    struct pass_read *ret_read);

/* The same where two readings are compared: these may be a step apart though nothing has moved, so
 * that no less is told from one to the other, by twice the root of two of this. */
double pass_read_told_mm(const struct setup *setup, enum belief_row row);

/* What a row reads at a string as a function of the unknowns. */
struct linear pass_read_function(const struct setup *setup, enum belief_row row, int string);

/* How uneven one nut, or one saddle, leaves the strings about a straight line, in what is read. */
double pass_read_uneven_mm(enum belief_row row);

/* How well the gauge of a row reads it, standard deviations, mm. What lies within its step is the
 * same each time that nothing moves; what the hand misses by is not. */
struct gauge_doubt {
    double step_mm, hand_mm;
};

struct gauge_doubt pass_read_doubt(const struct setup *setup, enum belief_row row);

/* Both together, of one reading. */
double pass_read_once_mm(const struct setup *setup, enum belief_row row);

/* How well one pass alone tells a gap, standard deviation, mm. */
double pass_read_gap_mm(const struct setup *setup);

#endif
