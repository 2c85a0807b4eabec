/* SPDX-License-Identifier: MIT */
/*
 * The leaves of an instrument, in the order in which they are turned. No include guard: it
 * is included with LEAF defined. LEAF(id, name, lay, figure): the function that lays
 * the leaf's cells out (leaf.h) and the figure that `?` explains first.
 */
/* clang-format off */
LEAF(INTAKE, "Intake", leaf_lay_intake, RELIEF)
LEAF(BENCH, "Bench", leaf_lay_bench, RELIEF)
LEAF(STRINGS, "Strings", leaf_lay_strings, TENSION)
LEAF(PITCH, "Pitch", leaf_lay_pitch, SETBACK_CHANGE)
LEAF(FRETS, "Frets", leaf_lay_frets, NUT_HEIGHT)
LEAF(NECK, "Neck", leaf_lay_neck, RELIEF_PREDICTED)
LEAF(WORK, "Work", leaf_lay_work, RELIEF)
LEAF(HISTORY, "History", leaf_lay_history, EMC)
/* clang-format on */
