/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_ESTIMATE_H
#define SILLET_SHEET_SHEET_ESTIMATE_H

#include "model/reading/prices.h"
#include "sheet/sheet_make.h"

/*
 * The estimate before the work: what the first pass of the visit found, what is due by it, in words
 * for the owner, and what may follow once that is done, with prices where the shop has them and a
 * line to fill in where not. Fails as sheet_make; the caller releases it with sheet_done.
 */
enum status sheet_estimate_make(const struct record *record, const struct sheet_ask *ask,
                                const struct prices *prices, struct sheet *ret_sheet);

#endif
