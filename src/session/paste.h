/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASTE_H
#define SILLET_SESSION_PASTE_H

#include "session/turn.h"

/*
 * Pasted text, if the terminal tells it from typing. In a cell of words it is a text. Elsewhere one
 * value counts as typed and waits for Enter. Several values, separated by line ends, tabs,
 * semicolons or blanks, fill the cells along the route, up to the first that would be refused or
 * held: there the paste ends, the rest is dropped, and the message says where and why. All that it
 * filed is one step of undo.
 */

/* Takes a key of a paste, or the mark of its beginning or end; false for other keys. */
bool paste_take_key(struct turn *turn, uint32_t key);

/* Ends a paste whose end mark was lost. Call it when no more keys come. */
void paste_end(struct turn *turn);

#endif
