/* SPDX-License-Identifier: MIT */
#include "app/leaf.h"

struct leaf_row {
    const char *name;
    void (*lay)(const struct leaf_place *place, struct route *route);
    enum figure_id figure;
};

static const struct leaf_row leaves[LEAF_COUNT_] = {
#define LEAF(id, name_, letter, lay_, figure_)                                                     \
    [LEAF_##id] = {.name = name_, .lay = lay_, .figure = FIGURE_##figure_},
#include "app/leaf_table.h"
#undef LEAF
};

const char *leaf_name(enum leaf leaf)
{
    return leaves[leaf].name;
}

void leaf_lay(enum leaf leaf, const struct leaf_place *place, struct route *route)
{
    route_clear(route);
    leaves[leaf].lay(place, route);
}

enum figure_id leaf_figure(enum leaf leaf)
{
    return leaves[leaf].figure;
}
