/* SPDX-License-Identifier: MIT */
#include "words/board_row.h"

#include "leaf/bench/bench_view.h"
#include "leaf/bench/expected.h"
#include "leaf/leaves.h"

static void lay_strings(const struct leaf_place *place, struct route *route, enum board_row row,
                        int strings)
{
    for (int s = strings; s >= 1; s--)
        route_add(route, reading_key_pass_at(board_row_field(row), place->visit, place->pass, s, 0),
                  (int)row, strings - s, s);
}

/* Relief, nut gaps, action, exposure, each from the bass string to the treble. */
static void lay(const struct leaf_place *place, struct route *route)
{
    const int strings = place->strings > 0 ? place->strings : 1;
    /* With one string the two exposures, both ends of its saddle, stand side by side. */
    const int last = strings > 1 ? strings - 1 : 1;
    const int visit = place->visit, pass = place->pass;

    route_add(route, reading_key_pass(FIELD_RELIEF, visit, pass), ROW_RELIEF, 0, strings);
    if (pass > 1) {
        /* Turns are logged when the rod is turned (leaf_work.c), and here only on purpose. */
        route_add(route, reading_key_pass(FIELD_ROD_TURN, visit, pass), ROW_RELIEF, last, strings);
        route_set_aside(route);
    }
    lay_strings(place, route, ROW_GAP, strings);
    lay_strings(place, route, ROW_ACTION, strings);
    route_add(route, reading_key_pass(FIELD_EXPOSURE_BASS, visit, pass), ROW_EXPOSURE, 0, strings);
    route_add(route, reading_key_pass(FIELD_EXPOSURE_TREBLE, visit, pass), ROW_EXPOSURE, last, 1);
    route->ends_pass = true;
}

static enum figure_id find_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    if (!cell)
        return FIGURE_ANGLE;
    switch ((enum board_row)cell->row) {
    case ROW_RELIEF:
        return FIGURE_RELIEF;
    case ROW_GAP:
        return FIGURE_SLOT_CHANGE;
    case ROW_ACTION:
        return FIGURE_SADDLE_CHANGE;
    case ROW_EXPOSURE:
    case ROW_COUNT_:
        break;
    }
    return cell->key.field == FIELD_EXPOSURE_BASS ? FIGURE_EXPOSURE_BASS_AFTER
                                                  : FIGURE_EXPOSURE_TREBLE_AFTER;
}

const struct leaf_row leaf_bench = {.is_bench = true,
                                    .lay = lay,
                                    .leaf_figure = FIGURE_RELIEF,
                                    .figure = find_figure,
                                    .has_figure = leaf_every_cell,
                                    .expected = bench_expected,
                                    .add_expected_after = bench_add_expected_after,
                                    .draw = bench_view_draw};
