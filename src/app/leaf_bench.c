/* SPDX-License-Identifier: MIT */
#include "app/leaf_bench.h"

#include "app/leaf.h"

enum field_id board_row_field(enum board_row row)
{
    static const enum field_id fields[ROW_COUNT_] = {
        [ROW_RELIEF] = FIELD_RELIEF,
        [ROW_GAP] = FIELD_NUT_GAP,
        [ROW_ACTION] = FIELD_ACTION,
        [ROW_EXPOSURE] = FIELD_EXPOSURE_BASS,
    };
    return fields[row];
}

static void lay_strings(const struct leaf_place *place, struct route *route, enum board_row row,
                        int strings)
{
    for (int s = strings; s >= 1; s--)
        route_add(route, reading_key_pass_at(board_row_field(row), place->visit, place->pass, s, 0),
                  (int)row, strings - s, s);
}

/* Relief, nut gaps, action, exposure, each from the bass string to the treble. */
void leaf_lay_bench(const struct leaf_place *place, struct route *route)
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
