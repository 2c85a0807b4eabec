/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_HELD_H
#define SILLET_SESSION_HELD_H

#include "session/turn.h"

/*
 * An entry that is likely not meant (model/doubt.h) is held: Enter does not file it but says why,
 * and only Enter once more, directly after that, does. Digits begin it anew, Backspace and Esc
 * empty it.
 */

/* True, with a warning, where the entry is held; false where Enter files it. */
bool held_holds(struct turn *turn);

/* A key while an entry is held; true where that is all there is to do with it. */
bool held_take_key(struct turn *turn, uint32_t key);

#endif
