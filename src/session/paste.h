/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASTE_H
#define SILLET_SESSION_PASTE_H

#include "session/turn.h"

/*
 * What is pasted, where the terminal tells it from what is typed. In a cell of words it is text.
 * Elsewhere one value is as good as typed and waits for Enter; several, parted by line ends, tabs,
 * semicolons or blanks, fill the cells along the route, up to the first that would be refused or
 * held: there the paste ends, the rest is dropped, and the message says where and why. All that it
 * filed is one step of undo.
 */

/* A key while something is pasted, or the mark that it begins or ends; false for other keys. */
bool paste_take_key(struct turn *turn, uint32_t key);

/* Nothing more is coming: a paste whose end was lost ends here. */
void paste_end(struct turn *turn);

#endif
