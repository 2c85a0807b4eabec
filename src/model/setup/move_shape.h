/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_MOVE_SHAPE_H
#define SILLET_MODEL_SETUP_MOVE_SHAPE_H

#include "model/setup/move.h"
#include "model/setup/setup.h"

/* What the strings ask of the saddle, by string, into what is made of it: of a blank one piece of
 * work, kept in `move`. False, and nothing changed, where what cannot be turned back would go by
 * less than can be told. */
bool move_shape_saddle(const struct setup *setup, struct move *move,
                       struct move_amount amount[STRINGS_MAX + 1]);

#endif
