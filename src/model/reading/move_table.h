/* SPDX-License-Identifier: MIT */
/*
 * Every move, declared once, in the trade's order. No include guard: it is included with MOVE
 * defined.
 *
 * MOVE(id, own, name, owner_name, figure, key)
 *
 * `own` ends the names of the functions that are the move's own: move_words_say_OWN puts it into
 * words for the shop, say_OWN (sheet_work.c) for the owner; move_find.c, move.c and, for frets and
 * pitch, derive_heard_moves.c decide it. `name` is what a work line is called that marks it done, six
 * letters at most; `owner_name` is the customer's sheet's. Its amounts come from `figure`, and are by
 * string where the figure is. `key` is what `sillet figures` calls an amount; by string or by fret
 * the number and the unit are added to it.
 *
 * Frets come after the rod, for a straight neck shows which fret is high, and before slots and saddle
 * are cut to the crowns. Pitch is last: whatever moves a string sharpens or flattens its notes. No
 * figure holds what comes off a fret; its row names the relief, which the crowns lie on.
 */
/* clang-format off */
MOVE(RESET, reset, "reset", "neck reset", ANGLE, "reset_angle_deg")
MOVE(ROD, rod, "rod", "truss rod", RELIEF, "rod_change_mm")
MOVE(FRETS, frets, "frets", "frets", RELIEF, "fret")
MOVE(SLOTS, slots, "slots", "nut slots", SLOT_CHANGE, "slot")
MOVE(SADDLE, saddle, "saddle", "saddle", SADDLE_CHANGE, "saddle")
MOVE(PITCH, pitch, "pitch", "intonation", SETBACK_CHANGE, "setback")
/* clang-format on */
