/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_climate.h"

#include "model/neck/moisture_doubt.h"
#include "model/reading/record_access.h"

bool derive_air(const struct record *record, int visit, struct air *ret_air)
{
    const struct maybe humidity = record_entered(record, reading_key_visit(FIELD_HUMIDITY, visit));
    const struct maybe temperature =
        record_entered(record, reading_key_visit(FIELD_TEMPERATURE, visit));

    *ret_air = (struct air){.temperature_c = maybe_or(temperature, 0),
                            .humidity_pct = maybe_or(humidity, 0)};
    return humidity.given && temperature.given;
}

struct maybe derive_emc(const struct record *record, int visit)
{
    struct air air;
    double emc_pct;

    if (!derive_air(record, visit, &air) || moisture_of_air(&air, &emc_pct) != STATUS_OK)
        return maybe_absent();
    return maybe_given(emc_pct);
}

void derive_climate(const struct record *record, int visit, struct figures *figures)
{
    const struct maybe emc_pct = derive_emc(record, visit);
    struct air air;

    if (!emc_pct.given || !derive_air(record, visit, &air))
        return;
    figures_set_u(figures, FIGURE_EMC, 0, emc_pct.value, moisture_emc_u(&air));
}
