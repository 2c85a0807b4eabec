/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_SHELF_GLANCE_H
#define SILLET_MODEL_SURVEY_SHELF_GLANCE_H

#include "model/derive/card.h"
#include "model/survey/shelf_facts.h"

/*
 * What the shelf can list of an instrument before anything is worked out: names, days, ticket,
 * whether it is in the house. It takes a few readings out of a record, and a tenth of the time.
 */

/* By field, the readings that it takes of a profile with this text. */
void shelf_glance_fields(const char *text, size_t length, bool ret_wanted[FIELD_COUNT_]);

/* From a record that holds at least these, and the first reading of each visit and string: the same
 * as shelf_facts_make and card_make say of it, and nothing of the rest. A time with its own day
 * that is written in pieces or with escapes is not seen. */
void shelf_glance_make(const struct record *record, struct card *ret_card,
                       struct shelf_facts *ret_facts);

#endif
