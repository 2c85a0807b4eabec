/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_BAR_MOVES_H
#define SILLET_MODEL_SETUP_BAR_MOVES_H

#include "model/setup/move.h"

/*
 * The moves of an instrument that is played with a bar on a raised nut. Nothing is fretted, so
 * that relief, gap and action have no meaning; the strings stand over the board as high at either
 * end as is wanted there. The nut's move is MOVE_SLOTS, the bridge's MOVE_SADDLE; each brings its
 * own end to its target, whatever the other does.
 */
void bar_moves_find(const struct setup *setup, struct move_set *ret_moves);

#endif
