/* SPDX-License-Identifier: MIT */
#include "app/leaf.h"

/* Nothing is entered here: what is looked at is a pass and a row (history_state.h). */
void leaf_lay_history(const struct leaf_place *place, struct route *route)
{
    (void)place;
    (void)route;
}
