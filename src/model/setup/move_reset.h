/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_MOVE_RESET_H
#define SILLET_MODEL_MOVE_RESET_H

#include "model/setup/move.h"

/*
 * Whether the saddle is enough for what the moves ask of it, or the neck has to be reset. Rod,
 * slots and saddle have been found (move_find.h); `figures` are those of the pass and give the
 * angle. What is due is decided by the moves as they are then; what it waits for comes later.
 */
void move_find_reset(const struct setup *setup, const struct figures *figures,
                     const struct belief *belief, struct move_set *moves);

#endif
