/* SPDX-License-Identifier: MIT */
#include "session/route.h"

#include <stdlib.h>

void route_clear(struct route *route)
{
    route->count = route->rows = route->columns = 0;
    route->ends_pass = false;
}

void route_add(struct route *route, struct reading_key key, int row, int column, int string)
{
    if (route->count == ROUTE_MAX)
        return;
    route->cells[route->count++] =
        (struct route_cell){.key = key, .row = row, .column = column, .string = string};
    if (row >= route->rows)
        route->rows = row + 1;
    if (column >= route->columns)
        route->columns = column + 1;
}

void route_set_aside(struct route *route)
{
    if (route->count > 0)
        route->cells[route->count - 1].aside = true;
}

int route_step(const struct route *route, int at, int by)
{
    const int last = route_last(route);

    for (int to = at + by; to >= 0 && to <= last; to += by)
        if (to >= route->count || !route->cells[to].aside)
            return to;
    return at;
}

int route_find(const struct route *route, const struct reading_key *key)
{
    for (int i = 0; i < route->count; i++)
        if (reading_key_compare(&route->cells[i].key, key) == 0)
            return i;
    return -1;
}

int route_last(const struct route *route)
{
    if (route->ends_pass || route->count == 0)
        return route->count;
    return route->count - 1;
}

/* The cell of a row that is nearest to a column; -1 for a row without cells. */
static int nearest(const struct route *route, int row, int column)
{
    int best = -1;

    for (int i = 0; i < route->count; i++) {
        if (route->cells[i].row != row)
            continue;
        if (best < 0 ||
            abs(route->cells[i].column - column) < abs(route->cells[best].column - column))
            best = i;
    }
    return best;
}

/* The next row in that direction that has a cell; -1 past the edge. */
static int next_row(const struct route *route, int row, int by, int column)
{
    for (row += by; row >= 0 && row < route->rows; row += by) {
        const int at = nearest(route, row, column);

        if (at >= 0)
            return at;
    }
    return -1;
}

/* The next cell of the same row in that direction; `at` itself at an edge. The route may go
 * through a row in another order. */
static int beside(const struct route *route, int at, int by)
{
    const struct route_cell *cell = &route->cells[at];
    int best = at;

    for (int i = 0; i < route->count; i++) {
        const int away = (route->cells[i].column - cell->column) * by;
        const int best_away = (route->cells[best].column - cell->column) * by;

        if (route->cells[i].row == cell->row && away > 0 && (best == at || away < best_away))
            best = i;
    }
    return best;
}

int route_move(const struct route *route, int at, int rows, int columns)
{
    if (at >= route->count)
        return (rows < 0 || columns < 0) && route->count > 0 ? route->count - 1 : at;
    const struct route_cell *cell = &route->cells[at];
    if (columns != 0)
        return beside(route, at, columns);
    const int to = next_row(route, cell->row, rows, cell->column);
    if (to >= 0)
        return to;
    return rows > 0 ? (route->ends_pass ? route->count : at) : at;
}
