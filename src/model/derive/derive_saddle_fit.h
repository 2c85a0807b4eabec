/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_SADDLE_FIT_H
#define SILLET_MODEL_DERIVE_DERIVE_SADDLE_FIT_H

#include "model/derive/derive.h"

/*
 * Whether the saddle of a blank bridge holds the contacts as they are, where the setbacks say where
 * they are, and those wanted: setbacks by string, absent for none. The strings lie as
 * string_places.h has them; where that is not known, evenly by course.
 */
struct saddle_fit derive_saddle_fit(const struct record *record, const struct derived *derived,
                                    const struct maybe wanted_mm[STRINGS_MAX + 1]);

#endif
