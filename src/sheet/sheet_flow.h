/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_FLOW_H
#define SILLET_SHEET_SHEET_FLOW_H

#include "sheet/sheet_set.h"

/* Private to sheet: all blocks of a sheet down its pages. */

/* The space between two blocks, as designed. */
#define FLOW_PART_MM 2.2

/*
 * Sets them one below the other, on as many pages as that takes. With setter->columns, sections
 * that need no more than half the width stand in two columns where that is lower: in their order
 * down the left column, then down the right one, unless another division is much lower. Those must
 * fit on one page.
 */
void flow_set(struct setter *setter);

#endif
