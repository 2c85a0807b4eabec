/* SPDX-License-Identifier: MIT */
#include "session/setback_cell.h"

#include <math.h>

#include "model/pitch/pitch_assumption.h"
#include "words/amount.h"

bool setback_cell_is_moved(const struct app *app, const struct route_cell *cell)
{
    return cell->key.field == FIELD_SETBACK && app->now.setup.setback[cell->key.string].is_expected;
}

struct maybe setback_cell_expected(const struct app *app, const struct route_cell *cell)
{
    return setback_cell_is_moved(app, cell) ? app->now.setup.setback[cell->key.string].mm
                                            : maybe_absent();
}

/* "±0.8 mm after the saddle moved (Work)": what a hand may be off by, to one digit. */
bool setback_cell_add_after(const struct app *app, struct strbuf *out)
{
    const struct pitch_assumption *moved = pitch_assumption_get(PITCH_ASSUMPTION_CONTACT_MOVED);
    const enum unit unit = field_bare_unit(field_get(FIELD_SETBACK), &app->units);
    const double step_mm = unit == UNIT_MM ? 0.1 : 0.254;
    const double u_mm = 2 * moved->size * sqrt(pitch_assumption_variance(moved->shape));

    strbuf_add(out, "\xC2\xB1");
    amount_add(out, round(u_mm / step_mm) * step_mm, unit, false);
    amount_add_unit(out, unit);
    strbuf_add(out, " after the saddle moved (Work)");
    return true;
}
