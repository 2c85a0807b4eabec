/* SPDX-License-Identifier: MIT */
/*
 * The questions that a list of instruments answers, declared once. No include guard: it is
 * included with QUESTION defined.
 *
 * QUESTION(id, title, none, answers, order, columns with their widths)
 */
/* clang-format off */
QUESTION(ALL, "on file", "Nothing is on file.", 0, 0,
         {COLUMN_NAME, 22}, {COLUMN_KIND, 12}, {COLUMN_OWNER, 15}, {COLUMN_VISIT, 10}, {COLUMN_MARKS, 15})
QUESTION(HOUSE, "in the house", "Nothing is in the house: what was not handed over has no ticket and is a month old.", is_in_house, order_promised,
         {COLUMN_PROMISED, 16}, {COLUMN_TICKET, 7}, {COLUMN_NAME, 19}, {COLUMN_OWNER, 15}, {COLUMN_TO_DO, 17})
QUESTION(DUE, "due for a check", "Nothing is due for a check within a month.", is_due, order_check,
         {COLUMN_CHECK, 16}, {COLUMN_AIR_THEN, 8}, {COLUMN_AIR_NOW, 7}, {COLUMN_NAME, 18}, {COLUMN_OWNER, 14}, {COLUMN_VISIT, 10})
QUESTION(SADDLE, "with little saddle left", "No saddle is nearly used up.", has_low_saddle, order_saddle,
         {COLUMN_SADDLE, 9}, {COLUMN_NAME, 22}, {COLUMN_KIND, 12}, {COLUMN_OWNER, 19}, {COLUMN_VISIT, 10})
QUESTION(RODS, "with nothing left in the rod", "No rod that was turned has nothing left.", has_spent_rod, order_rod,
         {COLUMN_ROD, 12}, {COLUMN_NAME, 22}, {COLUMN_KIND, 12}, {COLUMN_OWNER, 16}, {COLUMN_VISIT, 10})
QUESTION(LEFT, "left by then", "Nothing was on file by then.", was_left, 0,
         {COLUMN_NAME, 22}, {COLUMN_LEFT, 10}, {COLUMN_ACTION, 14}, {COLUMN_RELIEF, 8}, {COLUMN_GAP, 16}, {COLUMN_EXPOSURE, 12}, {COLUMN_TUNING, 20}, {COLUMN_STRINGS, 32})
/* clang-format on */
