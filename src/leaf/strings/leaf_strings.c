/* SPDX-License-Identifier: MIT */
#include "leaf/strings/leaf_strings.h"

#include "leaf/leaves.h"
#include "leaf/strings/retune.h"
#include "leaf/strings/strings_view.h"
#include "session/setback_cell.h"

static enum figure_id find_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    switch (cell ? (enum string_column)cell->column : STRING_COLUMN_NOTE) {
    case STRING_COLUMN_NOTE:
        return FIGURE_TENSION;
    case STRING_COLUMN_CORE:
    case STRING_COLUMN_HEX:
    case STRING_COLUMN_CORE_MATERIAL:
    case STRING_COLUMN_MODULUS:
        return FIGURE_STRESS_SHARE;
    case STRING_COLUMN_SETBACK:
        return FIGURE_SETBACK_PREDICTED;
    default:
        return FIGURE_UNIT_MASS;
    }
}

/* A packet lists the gauges, so the route goes down each column, bass string first. */
static void lay(const struct leaf_place *place, struct route *route)
{
    for (int column = 0; column < STRING_COLUMN_COUNT_; column++)
        for (int s = place->strings; s >= 1; s--)
            route_add(route,
                      reading_key_string(strings_column_field((enum string_column)column), s),
                      place->strings - s, column, s);
}

static void plan(struct app *app, struct place place)
{
    what_if_derive(&strings_state(app)->what_if, &place.record, app_shown(app));
}

static void end_filing(struct turn *turn, const char *text)
{
    (void)text;
    (void)retune_end(turn);
}

const struct leaf_row leaf_strings = {.state_size = sizeof(struct strings_state),
                                      .lay = lay,
                                      .shows = DERIVE_FIGURES,
                                      .leaf_figure = FIGURE_TENSION,
                                      .figure = find_figure,
                                      .has_figure = leaf_every_cell,
                                      .plan = plan,
                                      .expected = setback_cell_expected,
                                      .add_expected_after = setback_cell_add_after,
                                      .before_filing = retune_begin,
                                      .after_filing = end_filing,
                                      .draw = strings_view_draw};
