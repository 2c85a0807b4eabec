/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TYPING_H
#define SILLET_SESSION_TYPING_H

#include "session/turn.h"

/* What the entry line does with keys. Those that give a bool say whether the key was theirs. */

/* Opens what the cell in hand holds, to edit it. */
void typing_open(struct turn *turn);

/* In a cell with choices, Space and + propose the next one, - the one before, and a digit that
 * makes no number of a choice begins anew; a note goes up and down by semitones likewise. */
bool typing_choose(struct turn *turn, uint32_t key);

/* Keys that move in what is typed, or delete in it; Del at its end takes the last character, as
 * the number pad has no Backspace. */
bool typing_edit(struct turn *turn, uint32_t key);

/* A character that belongs to the entry. One that begins an entry begins it anew; what the cell
 * holds stays until Enter. */
bool typing_add(struct turn *turn, uint32_t key);

/* Backspace, while there is something to erase or letters are written. */
bool typing_erase(struct turn *turn);

#endif
