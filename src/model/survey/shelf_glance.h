/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SHELF_GLANCE_H
#define SILLET_MODEL_SURVEY_SHELF_GLANCE_H

#include "model/derive/card.h"
#include "model/survey/shelf_facts.h"

/*
 * What the shelf can list of an instrument before anything is worked out: names, days, ticket,
 * whether it is in the house. It takes a few readings out of a record, and a tenth of the time.
 */

/* By field, the readings that it takes. */
const bool *shelf_glance_fields(void);

/* From a record that holds at least these, and the first reading of each visit and string: the same
 * as shelf_facts_make and card_make say of it, and nothing of the rest. */
void shelf_glance_make(const struct record *record, struct card *ret_card,
                       struct shelf_facts *ret_facts);

#endif
