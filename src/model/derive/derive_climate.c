/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_climate.h"

#include "model/neck/moisture.h"
#include "model/reading/record_access.h"

struct maybe derive_emc(const struct record *record, int visit)
{
    const struct maybe humidity = record_entered(record, reading_key_visit(FIELD_HUMIDITY, visit));
    const struct maybe temperature =
        record_entered(record, reading_key_visit(FIELD_TEMPERATURE, visit));
    double emc_pct;

    if (!humidity.given || !temperature.given ||
        moisture_find_emc(temperature.value, humidity.value, &emc_pct) != STATUS_OK)
        return maybe_absent();
    return maybe_given(emc_pct);
}

void derive_climate(const struct record *record, int visit, struct figures *figures)
{
    const struct maybe emc_pct = derive_emc(record, visit);

    if (emc_pct.given)
        figures_set(figures, FIGURE_EMC, 0, emc_pct.value, KNOWN_READ);
}
