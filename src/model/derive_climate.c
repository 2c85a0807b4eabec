/* SPDX-License-Identifier: MIT */
#include "model/derive_climate.h"

#include "model/moisture.h"
#include "model/record_access.h"

void derive_climate(const struct record *record, int visit, struct figures *figures)
{
    const struct entered humidity =
        record_entered(record, reading_key_visit(FIELD_HUMIDITY, visit));
    const struct entered temperature =
        record_entered(record, reading_key_visit(FIELD_TEMPERATURE, visit));
    double emc_pct;

    if (humidity.given && temperature.given &&
        moisture_find_emc(temperature.value, humidity.value, &emc_pct) == STATUS_OK)
        figures_set(figures, FIGURE_EMC, 0, emc_pct, KNOWN_READ);
}
