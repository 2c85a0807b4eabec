/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_PAGE_H
#define SILLET_SHEET_SHEET_PAGE_H

#include "page/page.h"
#include "sheet/sheet.h"

/*
 * The sheet laid out on pages of a size. How wide texts come out is asked of page_write.h.
 * The caller frees the list. Failures as of page_list_status, *ret_list untouched then.
 */
enum status sheet_lay_pages(const struct sheet *sheet, struct page_size size,
                            struct page_list **ret_list);

#endif
