/* SPDX-License-Identifier: MIT */
#include "app/leaf.h"

/* What is looked at is a pass and a row (history_state.h), which are no cells; those of a pass's
 * label and note are there while it is being named. */
void leaf_lay_history(const struct leaf_place *place, struct route *route)
{
    const int visit = place->named_visit, pass = place->named_pass;

    if (visit < 1)
        return;
    route_add(route, reading_key_pass(FIELD_PASS_LABEL, visit, pass), 0, 0, place->strings);
    route_add(route, reading_key_pass(FIELD_PASS_NOTE, visit, pass), 1, 0, place->strings);
}
