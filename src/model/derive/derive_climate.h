/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_CLIMATE_H
#define SILLET_MODEL_DERIVE_DERIVE_CLIMATE_H

#include "base/maybe.h"
#include "model/figure/figure.h"
#include "model/neck/moisture_doubt.h"
#include "model/reading/record.h"

/* A visit's air; false where humidity or temperature was not read. */
bool derive_air(const struct record *record, int visit, struct air *ret_air);

/* The moisture content that wood comes to in a visit's climate, %; absent where that is not known.
 */
struct maybe derive_emc(const struct record *record, int visit);

/* The same into `figures`, with its +-. */
void derive_climate(const struct record *record, int visit, struct figures *figures);

#endif
