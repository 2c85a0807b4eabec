/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_AS_LEFT_H
#define SILLET_MODEL_SURVEY_AS_LEFT_H

#include "model/survey/shelf_facts.h"

/* What an instrument was like at the end of a visit: its strings, what was wanted of it, and what
 * it was read to have. */

/* Whether somebody keeps tickets, promises or handing over for it. */
bool as_left_is_followed(const struct record *record);

bool as_left_is_handed_over(const struct record *record, int visit);

/* Whether a visit is over: handed over, or followed by another, or nobody keeps that. */
bool as_left_is_over(const struct record *record, int visit);

/* The last visit that is over and has a pass; where none is over, the last. 0: none has a pass. */
int as_left_last(const struct record *record);

/* The visit that an earlier day finds it left by: the last one that began on it or before. 0: it
 * was not here until then. */
int as_left_by(const struct record *record, int day);

/* The visit so many, by -1 or 1, after a visit; 0: there is none. */
int as_left_step(const struct record *record, int visit, int by);

/* Puts WANTED_..., LEFT_..., TUNING and GAUGES of the end of a visit into the facts, which have
 * none of them yet. With visit 0, of the instrument as it is described. */
void as_left_make(const struct record *record, int visit, struct shelf_facts *facts);

#endif
