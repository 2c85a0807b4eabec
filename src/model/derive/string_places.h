/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_STRING_PLACES_H
#define SILLET_MODEL_DERIVE_STRING_PLACES_H

#include "model/derive/derive_strings.h"
#include "model/reading/outfit.h"
#include "model/reading/record.h"

/*
 * Where a record's strings lie across the nut and the saddle, by the rule that they are spread by
 * (layout.h). The nut needs the rule, every gauge, its width (else the board's there) and both
 * margins; the saddle needs its spread instead. Courses are spread as one, which needs the gap
 * within a course too.
 */

/* From the bass edge of the nut, mm, by string number ([0] unused). One that starts higher has no
 * part of the nut's room: its place is where its line would cross the nut, on in the steps of its
 * neighbours, and may lie beside it. False if something is missing. */
bool string_places_nut(const struct record *record, const struct string_facts *facts,
                       const struct outfit *outfit, double ret_centre_mm[STRINGS_MAX + 1]);

/* The same at the saddle, from the centre of the lowest string. */
bool string_places_saddle(const struct record *record, const struct string_facts *facts,
                          const struct outfit *outfit, double ret_centre_mm[STRINGS_MAX + 1]);

#endif
