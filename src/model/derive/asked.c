/* SPDX-License-Identifier: MIT */
#include "model/derive/asked.h"

bool asked_for_reset(struct place from, struct place *ret_asked, struct derived *ret_derived)
{
    struct derived derived;

    for (; from.pass > 0; from.pass--) {
        derive_pass(from, &derived);
        if (move_set_reset(&derived.moves) != RESET_NECK)
            continue;
        *ret_asked = from;
        *ret_derived = derived;
        return true;
    }
    return false;
}
