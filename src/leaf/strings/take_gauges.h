/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_TAKE_GAUGES_H
#define SILLET_LEAF_STRINGS_TAKE_GAUGES_H

#include "session/turn.h"

/*
 * Puts into the record the gauges that the what-if of the Strings leaf found for the pulls wanted.
 * Build and materials stay; mass, weight and label were the old string's, and are taken out.
 */

/* How many strings would get another gauge. */
int take_gauges_count(const struct app *app);

/* Appends what would be done: "Other gauges for 3 strings; mass, weight and label of 6 5 go." */
void take_gauges_add_words(const struct app *app, struct strbuf *out);

/* One string's; does nothing where its gauge stays. */
enum status take_gauges_put(struct turn *turn, int string);

#endif
