/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_INTAKE_PRICE_QUESTION_H
#define SILLET_LEAF_INTAKE_PRICE_QUESTION_H

#include "model/derive/charges.h"
#include "session/turn.h"

/*
 * Asks for the shop's prices, one row of an estimate after the other. Enter keeps what is typed as
 * the shop's, or leaves the price, and goes on; + and - step, Del takes a price out, Esc ends it.
 * What this visit's estimate comes to stands beside it, as typed so far. The record is not touched.
 */

/* The command INTAKE_PRICES. */
void price_question_ask(struct turn *turn);

/* What the leaf keeps of it. */
struct intake_state {
    int row;                /* of the price in hand */
    struct prices typed;    /* the shop's, with what is typed */
    struct charges charges; /* of the visit, with what is typed */
};

#endif
