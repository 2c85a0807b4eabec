/* SPDX-License-Identifier: MIT */
#include "words/saddle_top.h"

#include <math.h>

#include "model/reading/shop_round.h"
#include "words/amount.h"

/* "radius 16.5 in", "flat", "hollow, radius 3000 mm": false for nothing. */
static bool add_radius(const struct derived *derived, const struct shop_units *units,
                       struct strbuf *out)
{
    const struct maybe radius = figures_get(&derived->figures, FIGURE_SADDLE_RADIUS, 0);
    const bool known = derived->setup.board.strings > 2 &&
                       figures_get(&derived->figures, FIGURE_SADDLE_OVER, 2).given;

    if (!known)
        return false;
    if (!radius.given) {
        strbuf_add(out, "flat");
        return true;
    }
    strbuf_add(out, radius.value < 0 ? "hollow, radius " : "radius ");
    shop_round_add(field_get(FIELD_RADIUS_NUT), units, fabs(radius.value), out);
    return true;
}

void saddle_top_add(const struct derived *derived, int string, const struct shop_units *units,
                    struct strbuf *out)
{
    const enum unit unit = units->bare[MEASURE_SMALL];
    const struct figures *figures = &derived->figures;
    const struct maybe wanted = figures_get(figures, FIGURE_SADDLE_OVER, string);
    const struct maybe now = figures_get(figures, FIGURE_SADDLE_OVER_NOW, string);
    char memory[40];
    struct strbuf radius = STRBUF(memory);

    if (!add_radius(derived, units, &radius))
        return;
    strbuf_add(out, "saddle top ");
    strbuf_add(out, memory);
    if (!wanted.given)
        return;
    strbuf_addf(out, "; string %d ", string);
    amount_add(out, fabs(wanted.value), unit, false);
    amount_add_unit(out, unit);
    strbuf_add(out, wanted.value < 0 ? " under the outer two" : " over the outer two");
    if (!now.given)
        return;
    strbuf_add(out, ", now ");
    amount_add(out, now.value, unit, false);
    amount_add_doubt(out, figures->at[FIGURE_SADDLE_OVER_NOW][string].u, unit);
}
