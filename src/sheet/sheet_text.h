/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_TEXT_H
#define SILLET_SHEET_SHEET_TEXT_H

#include "sheet/sheet.h"

enum { SHEET_TEXT_COLUMNS = 80 };

/*
 * Writes the sheet as plain text, no line wider than SHEET_TEXT_COLUMNS; pure ASCII without
 * `utf8`. Of the drawings only the headroom map has a text version. The caller frees
 * *ret_text. STATUS_NO_MEMORY, with *ret_text untouched.
 */
enum status sheet_write_text(const struct sheet *sheet, bool utf8, char **ret_text);

#endif
