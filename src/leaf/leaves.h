/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_LEAVES_H
#define SILLET_LEAF_LEAVES_H

#include "session/leaf.h"

/* The row of each leaf, in its folder's leaf_NAME.c. */
#define LEAF(id, name, letter, room) extern const struct leaf_row leaf_##room;
#include "session/leaf_table.h"
#undef LEAF

/* All leaves, and what the commands do. A session is begun with this. */
extern const struct leaves leaves_all;

#endif
