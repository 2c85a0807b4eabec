/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LEAF_H
#define SILLET_APP_LEAF_H

#include "app/route.h"
#include "model/figure.h"
#include "model/record.h"

/* The leaves: screens of one instrument, turned with PgUp and PgDn. */

enum leaf {
#define LEAF(id, ...) LEAF_##id,
#include "app/leaf_table.h"
#undef LEAF
    LEAF_COUNT_
};

/* What a leaf is laid out for. */
struct leaf_place {
    const struct record *record;
    int strings, frets; /* 0 where not given */
    int visit, pass;
    int named_visit, named_pass; /* the pass whose label and note are written; 0: none */
};

const char *leaf_name(enum leaf leaf);

/* Lays the cells of a leaf out, in the order of their route. */
void leaf_lay(enum leaf leaf, const struct leaf_place *place, struct route *route);

/* The figure that `?` explains first on a leaf. */
enum figure_id leaf_figure(enum leaf leaf);

/* One for each leaf. */
#define LEAF(id, name, letter, lay, figure)                                                        \
    void lay(const struct leaf_place *place, struct route *route);
#include "app/leaf_table.h"
#undef LEAF

#endif
