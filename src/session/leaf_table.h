/* SPDX-License-Identifier: MIT */
/*
 * The leaves of an instrument, in the order in which Tab turns them. No include guard: it is
 * included with LEAF defined. LEAF(id, name, letter, room): its letter in the menu, and the row
 * leaf_ROOM (leaf.h) that its folder defines; Work's folder is jobs. F1 turns to the first, and so on.
 */
/* clang-format off */
LEAF(INTAKE, "Intake", 'I', intake)
LEAF(BENCH, "Bench", 'B', bench)
LEAF(STRINGS, "Strings", 'S', strings)
LEAF(PITCH, "Pitch", 'P', pitch)
LEAF(FRETS, "Frets", 'F', frets)
LEAF(NECK, "Neck", 'N', neck)
LEAF(WORK, "Work", 'W', work)
LEAF(HISTORY, "History", 'H', history)
/* clang-format on */
