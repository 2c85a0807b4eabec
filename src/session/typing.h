/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TYPING_H
#define SILLET_SESSION_TYPING_H

#include "session/turn.h"

/* What the entry line does with keys. The functions that return a bool say whether the key was
 * theirs. */

/* Opens what the cell in hand holds, to edit it. */
void typing_open(struct turn *turn);

/* In a cell with choices, Space and + propose the next one, - the one before. A digit goes on with
 * a choice's number if that makes one, else it begins a new number. In a cell for a note, Space, +
 * and - go by semitones. */
bool typing_choose(struct turn *turn, uint32_t key);

/* Keys that move or delete in the entry. Del at its end deletes the last character, because the
 * number pad has no Backspace. */
bool typing_edit(struct turn *turn, uint32_t key);

/* A character for the entry. The first one begins a new entry; what the cell holds stays until
 * Enter. */
bool typing_add(struct turn *turn, uint32_t key);

/* Backspace, while something is typed. */
bool typing_erase(struct turn *turn);

#endif
