/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_MAKE_H
#define SILLET_SHEET_SHEET_MAKE_H

#include "sheet/sheet.h"

/* What a sheet is asked for. */
struct sheet_ask {
    int visit; /* 0: the last one */
    struct shop_units units;
    const char *shop, *address, *contact; /* of the shop; NULL where it never said */
};

/*
 * The sheet of a visit: what the instrument was like, what was done to it, what it is like
 * now. The first pass of the visit is how it was found, the last one how it was left. What
 * was not read is left out.
 *
 * STATUS_NOT_FOUND for a visit that the record does not have (a record without any gives a
 * short sheet with visit 0), STATUS_NO_MEMORY; *ret_sheet untouched then. The caller ends it
 * with sheet_done.
 */
enum status sheet_make(const struct record *record, const struct sheet_ask *ask,
                       struct sheet *ret_sheet);

#endif
