/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_CARDS_H
#define SILLET_SHEET_SHEET_CARDS_H

#include "sheet/sheet_make.h"

/*
 * The card to lie beside the instrument while slots are filed and frets are rocked, for the shop
 * and not for the customer: for each nut slot the file, what comes off and what the gauge reads
 * then; for each fret how long the rocker's edge has to be, and a place for what it found. By the
 * last pass of the visit. Fails as sheet_make; the caller releases it with sheet_done.
 */
enum status sheet_cards_make(const struct record *record, const struct sheet_ask *ask,
                             struct sheet *ret_sheet);

#endif
