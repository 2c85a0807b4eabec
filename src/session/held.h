/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_HELD_H
#define SILLET_SESSION_HELD_H

#include "session/turn.h"

/*
 * An entry that is probably a slip (doubt.h), or replaces what one does not expect to write
 * over (a work line, a reading of an earlier pass or visit), is held: Enter does not file it but
 * says why, and a second Enter right after that files it. A number that cannot be taken stands as
 * well. Until it is answered, emptied (Backspace, Esc) or mended (arrows), no digit is taken: it
 * would be the next cell's.
 */

/* True, with a warning, if the entry is held; false if Enter files it. */
bool held_holds(struct turn *turn);

/* Handles a key while an entry is held; true if the key needs no further handling. */
bool held_take_key(struct turn *turn, uint32_t key);

#endif
