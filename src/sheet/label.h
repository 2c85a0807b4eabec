/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_LABEL_H
#define SILLET_SHEET_LABEL_H

#include "page/page.h"
#include "sheet/sheet_make.h"

/*
 * The label for the case: whose instrument it is, when it was set up, strings, tuning, how it was
 * left, and when to look at it again. The sizes are usual ones of label rolls (common practice).
 */
enum label_size { LABEL_NONE, LABEL_SMALL, LABEL_MEDIUM, LABEL_LARGE, LABEL_SIZE_COUNT_ };

/* "small", as it is typed; `size` is none of the ends. */
const char *label_size_name(enum label_size size);

/*
 * The label of a visit as one page of that size; lines for which there is no room are left out from
 * the end, the instrument's name and the date never. Fails as sheet_make does. The caller frees the
 * list.
 */
enum status label_make(const struct record *record, const struct sheet_ask *ask,
                       enum label_size size, struct page_list **ret_list);

#endif
