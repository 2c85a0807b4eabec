/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_MOVE_NEED_H
#define SILLET_MODEL_MOVE_NEED_H

#include "model/setup/belief.h"
#include "model/setup/move.h"

/* Says what is missing for a move of rod, slots or saddle that is unknown, unless that is said
 * already. Slots or a saddle that are good but for a string that was worked on and not read since
 * are not known to be. */
void move_ask(const struct setup *setup, const struct belief *belief, struct move *move,
              enum move_kind kind);

#endif
