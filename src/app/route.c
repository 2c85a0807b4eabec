/* SPDX-License-Identifier: MIT */
#include "app/route.h"

#include <stdlib.h>

static void add(struct route *route, struct reading_key key, enum board_row row, int string,
                int column)
{
    route->cells[route->count++] =
        (struct route_cell){.key = key, .row = row, .string = string, .column = column};
}

static void add_strings(struct route *route, enum board_row row, int strings, int visit, int pass)
{
    for (int s = strings; s >= 1; s--)
        add(route, reading_key_pass_at(route_row_field(row), visit, pass, s, 0), row, s,
            strings - s);
}

enum field_id route_row_field(enum board_row row)
{
    static const enum field_id fields[ROW_COUNT_] = {
        [ROW_RELIEF] = FIELD_RELIEF,
        [ROW_GAP] = FIELD_NUT_GAP,
        [ROW_ACTION] = FIELD_ACTION,
        [ROW_EXPOSURE] = FIELD_EXPOSURE_BASS,
    };
    return fields[row];
}

void route_lay(struct route *route, int strings, int visit, int pass)
{
    if (strings < 1)
        strings = 1;
    route->count = 0;
    /* With one string the two exposures, both ends of its saddle, stand side by side. */
    route->columns = strings > 1 ? strings : 2;
    add(route, reading_key_pass(FIELD_RELIEF, visit, pass), ROW_RELIEF, strings, 0);
    add_strings(route, ROW_GAP, strings, visit, pass);
    add_strings(route, ROW_ACTION, strings, visit, pass);
    add(route, reading_key_pass(FIELD_EXPOSURE_BASS, visit, pass), ROW_EXPOSURE, strings, 0);
    add(route, reading_key_pass(FIELD_EXPOSURE_TREBLE, visit, pass), ROW_EXPOSURE, 1,
        route->columns - 1);
}

int route_find(const struct route *route, const struct reading_key *key)
{
    for (int i = 0; i < route->count; i++)
        if (reading_key_compare(&route->cells[i].key, key) == 0)
            return i;
    return -1;
}

/* The cell of a row that is nearest to a column; -1 for no such row. */
static int nearest(const struct route *route, int row, int column)
{
    int best = -1;

    for (int i = 0; i < route->count; i++) {
        if ((int)route->cells[i].row != row)
            continue;
        if (best < 0 || abs(route->cells[i].column - column) <
                            abs(route->cells[best].column - column))
            best = i;
    }
    return best;
}

int route_move(const struct route *route, int at, int rows, int columns)
{
    if (at >= route->count)
        return rows < 0 || columns < 0 ? route->count - 1 : route->count;
    const struct route_cell *cell = &route->cells[at];
    if (columns != 0) {
        const int to = at + columns;

        return to >= 0 && to < route->count && route->cells[to].row == cell->row ? to : at;
    }
    if ((int)cell->row + rows >= ROW_COUNT_)
        return route->count;
    const int to = nearest(route, (int)cell->row + rows, cell->column);
    return to < 0 ? at : to;
}
