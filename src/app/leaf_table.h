/* SPDX-License-Identifier: MIT */
/*
 * The leaves of an instrument, in the order in which they are turned. No include guard: it
 * is included with LEAF defined. LEAF(id, name, letter, lay, figure): its letter
 * in the menu, the function that lays the leaf's cells out (leaf.h), and the figure that `?`
 * explains first. F1 turns to the first, and so on.
 */
/* clang-format off */
LEAF(INTAKE, "Intake", 'I', leaf_lay_intake, RELIEF)
LEAF(BENCH, "Bench", 'B', leaf_lay_bench, RELIEF)
LEAF(STRINGS, "Strings", 'S', leaf_lay_strings, TENSION)
LEAF(PITCH, "Pitch", 'P', leaf_lay_pitch, SETBACK_CHANGE)
LEAF(FRETS, "Frets", 'F', leaf_lay_frets, NUT_HEIGHT)
LEAF(NECK, "Neck", 'N', leaf_lay_neck, RELIEF_PREDICTED)
LEAF(WORK, "Work", 'W', leaf_lay_work, RELIEF)
LEAF(HISTORY, "History", 'H', leaf_lay_history, EMC)
/* clang-format on */
