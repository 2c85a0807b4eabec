/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_BELIEF_READ_H
#define SILLET_MODEL_BELIEF_READ_H

#include "model/setup/belief.h"

/*
 * Takes the readings of a pass in. One that lies too far from what all others say is questioned:
 * it stays out until a second reading, in a later pass, says the same, and stays questioned until
 * it is read again. So is a row that fits its
 * neighbours much better when it is moved by one string, and, where nothing was known yet, a
 * reading that does not go with its row (odd_row.h). Where most of a row lies too far, what is
 * known of it was wrong, and is begun anew; where it lies farther than work on it explains, the
 * row holds what was read for another.
 */
void belief_read(struct belief *belief, const struct setup *setup);

/* How far the gaps and actions of a pass lie from what is known and its relief, before they are
 * taken in: the sum of their squares, in deviations, and of how many. */
double belief_misfit(const struct belief *belief, const struct setup *setup, int *ret_count);

/* Whether the relief and most actions of a pass have moved, by no more than work on it explains:
 * something was done that nobody told. */
bool belief_is_other(const struct belief *belief, const struct setup *setup);

#endif
