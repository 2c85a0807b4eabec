/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_BELIEF_AGAIN_H
#define SILLET_MODEL_SETUP_BELIEF_AGAIN_H

#include "model/setup/pass_read.h"

/*
 * What is read again where nothing has moved. The gauge then falls on the same of its marks, and
 * what lies within its step is as unknown as before: only what the hand misses by averages out. Of
 * n readings s^2 + h^2/n is left, s of the step and h of the hand, and never less than s.
 * Source: JCGM 100:2008 (GUM), F.2.2.1: readings that are all alike do not make an uncertainty of
 * 0; that of the step is in each of them, the same. 5.2.2 and its example: what readings have in
 * common does not average out.
 */

/* What moves made of the readings so far: where one stands elsewhere on its gauge, the next is a
 * new one. Before the readings of a pass are taken in. */
void belief_again_carry(struct belief *belief, const struct setup *setup);

/* Takes a reading in, the first there or one more. */
void belief_again_take(struct belief *belief, const struct setup *setup,
                       const struct gauged *reading);

/* Keeps what is believed of each reading now. After the readings of a pass. */
void belief_again_keep(struct belief *belief, const struct setup *setup);

#endif
