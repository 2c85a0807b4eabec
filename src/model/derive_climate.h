/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_CLIMATE_H
#define SILLET_MODEL_DERIVE_CLIMATE_H

#include <stdbool.h>

#include "model/figure.h"
#include "model/record.h"

/* The moisture content that wood comes to in a visit's climate, %; false, *ret_emc_pct
 * untouched, where the climate is not known. */
bool derive_emc(const struct record *record, int visit, double *ret_emc_pct);

/* The moisture content that wood comes to in a visit's climate, into `figures`. */
void derive_climate(const struct record *record, int visit, struct figures *figures);

#endif
