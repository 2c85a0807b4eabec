/* SPDX-License-Identifier: MIT */
#include "model/derive_climate.h"

#include "model/moisture.h"
#include "model/record_access.h"

bool derive_emc(const struct record *record, int visit, double *ret_emc_pct)
{
    const struct entered humidity =
        record_entered(record, reading_key_visit(FIELD_HUMIDITY, visit));
    const struct entered temperature =
        record_entered(record, reading_key_visit(FIELD_TEMPERATURE, visit));

    return humidity.given && temperature.given &&
           moisture_find_emc(temperature.value, humidity.value, ret_emc_pct) == STATUS_OK;
}

void derive_climate(const struct record *record, int visit, struct figures *figures)
{
    double emc_pct;

    if (derive_emc(record, visit, &emc_pct))
        figures_set(figures, FIGURE_EMC, 0, emc_pct, KNOWN_READ);
}
