/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_TEXT_H
#define SILLET_SHEET_SHEET_TEXT_H

#include "sheet/sheet.h"

enum { SHEET_TEXT_COLUMNS = 80 };

/*
 * The sheet as plain text, no line wider than SHEET_TEXT_COLUMNS columns; without `utf8` in
 * ASCII alone. Of the drawings only the map of headroom has a plain version. The caller frees
 * *ret_text. STATUS_NO_MEMORY, *ret_text untouched.
 */
enum status sheet_write_text(const struct sheet *sheet, bool utf8, char **ret_text);

#endif
