/* SPDX-License-Identifier: MIT */
#include "session/leaf.h"

const char *leaf_name(enum leaf leaf)
{
    static const char *const names[LEAF_COUNT_] = {
#define LEAF(id, name, letter, room) [LEAF_##id] = name,
#include "session/leaf_table.h"
#undef LEAF
    };
    return names[leaf];
}

void leaf_lay(const struct leaf_row *row, const struct leaf_place *place, struct route *route)
{
    route_clear(route);
    row->lay(place, route);
}

bool leaf_every_cell(const struct route_cell *cell)
{
    (void)cell;
    return true;
}
