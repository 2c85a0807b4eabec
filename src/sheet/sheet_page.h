/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_PAGE_H
#define SILLET_SHEET_SHEET_PAGE_H

#include "page/page.h"
#include "sheet/sheet.h"

/*
 * Lays out the sheet on pages of the given size. Text widths come from page_write.h.
 * The caller frees the list. Failures as page_list_status; *ret_list is untouched then.
 */
enum status sheet_lay_pages(const struct sheet *sheet, struct page_size size,
                            struct page_list **ret_list);

#endif
