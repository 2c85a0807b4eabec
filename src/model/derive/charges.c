/* SPDX-License-Identifier: MIT */
#include "model/derive/charges.h"

/* What has to be read again first. Frets and intonation wait as a matter of course. */
static bool may_follow(const struct move *move)
{
    return move->state == MOVE_WAITS && !move_is_left(move);
}

static enum charge charge_of(const struct move_set *moves, int row)
{
    if (move_set_settles(moves))
        return CHARGE_NONE;
    if (row == PRICE_STRINGS)
        return CHARGE_LATER;
    if (moves->move[row].state == MOVE_DUE)
        return CHARGE_DUE;
    return may_follow(&moves->move[row]) ? CHARGE_LATER : CHARGE_NONE;
}

static struct maybe add(struct maybe sum, struct maybe price)
{
    return sum.given && price.given ? maybe_given(sum.value + price.value) : maybe_absent();
}

void charges_find(const struct move_set *moves, const struct prices *prices,
                  struct charges *ret_charges)
{
    struct charges charges = {.together = maybe_given(0), .at_most = maybe_given(0)};

    for (int row = 0; row < PRICE_COUNT_; row++) {
        charges.row[row] = charge_of(moves, row);
        charges.due += charges.row[row] == CHARGE_DUE;
        if (charges.row[row] == CHARGE_DUE)
            charges.together = add(charges.together, prices->row[row]);
        if (charges.row[row] != CHARGE_NONE)
            charges.at_most = add(charges.at_most, prices->row[row]);
    }
    *ret_charges = charges;
}

void charges_find_visit(const struct record *record, int visit, const struct prices *prices,
                        struct charges *ret_charges)
{
    struct place place = place_of(record, visit, 0), first = place;
    struct derived derived;

    if (place_next(&place) && place.visit == visit)
        first = place;
    derive_pass_among(first, NULL, DERIVE_ASKED, &derived);
    charges_find(&derived.moves, prices, ret_charges);
}
