/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SHOP_KEEP_H
#define SILLET_RUN_SHOP_KEEP_H

#include "session/app.h"

/* Writes what a session changes of the shop's settings, and says how that went. */

/* The units that its gauges read in; says something after a failure only. */
void shop_keep_units(struct app *app);

/* Keeps the record's targets as the shop's for its kind, or forgets these. */
void shop_keep_targets(struct app *app, enum app_targets what);

/* Keeps the session's price of a row as the shop's; says something after a failure only. */
void shop_keep_price(struct app *app, int row);

/* Tells the session the shop's prices; none if they cannot be read. */
void shop_keep_tell_prices(struct app *app);

/* Tells the session for which kinds the shop has targets; none if that cannot be read. */
void shop_keep_tell_kinds(struct app *app);

#endif
