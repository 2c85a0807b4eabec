/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_MOVE_BELIEVED_H
#define SILLET_MODEL_MOVE_BELIEVED_H

#include "model/setup/belief.h"
#include "model/setup/move.h"

/* What is believed of an instrument, put beside its moves: as it is, which readings are
 * questioned, and which hold; */
void move_keep_believed(const struct setup *setup, const struct belief *belief,
                        struct move_set *moves);

/* and what the gauges read as far as a plan has come, the `..._then` of a move. */
void move_foresee(const struct belief *plan, const struct setup *setup, struct move *move);

#endif
