/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_MAKE_H
#define SILLET_SHEET_SHEET_MAKE_H

#include "sheet/sheet.h"

/* The options of a sheet. */
struct sheet_ask {
    int visit; /* 0 for the last one */
    struct shop_units units;
    const char *shop, *address, *contact; /* of the shop; NULL if not set */
};

/*
 * Makes the sheet of a visit: what the instrument was like, what was done to it, what it is like
 * now. The first pass of the visit is as found, the last one as left. What
 * was not read is left out.
 *
 * STATUS_NOT_FOUND for a visit that the record does not have (with visit 0, a record without any
 * gives a short sheet), or STATUS_NO_MEMORY; *ret_sheet is untouched then. The caller releases it
 * with sheet_done.
 */
enum status sheet_make(const struct record *record, const struct sheet_ask *ask,
                       struct sheet *ret_sheet);

#endif
