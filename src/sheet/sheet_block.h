/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_BLOCK_H
#define SILLET_SHEET_SHEET_BLOCK_H

#include "sheet/sheet_set.h"

/* Private to sheet: one block of a sheet, set down the setter's column. */

void block_set(struct setter *setter, const struct sheet_block *block);

/* Whether a drawing goes beside the table before it: a small one does, if there is room. */
bool block_is_beside(const struct setter *setter, const struct sheet_block *block);

/* The height of a block; for a table, including the drawing beside it. */
double block_height_mm(const struct setter *setter, const struct sheet_block *block);

#endif
