/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_SHOP_OWN_H
#define SILLET_MODEL_READING_SHOP_OWN_H

#include "model/reading/record.h"

/* What a shop may keep as its own for a kind of instrument: targets, tolerances, gauge steps. */

enum shop_own_group { SHOP_OWN_TARGET, SHOP_OWN_TOLERANCE, SHOP_OWN_STEP, SHOP_OWN_GROUPS_ };

/* The k-th (from 0) of these fields; FIELD_COUNT_ past the last. */
enum field_id shop_own_field(int k);

/* What the k-th, which must be one, is counted with: how hard the owner plays is a target. */
enum shop_own_group shop_own_group(int k);

/* What a record says there; NULL if nothing that is understood. */
const char *shop_own_text(const struct record *record, enum field_id field);

/* How many of them a record says. */
int shop_own_count(const struct record *record);

#endif
