/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_REFRESH_H
#define SILLET_SESSION_REFRESH_H

#include "session/app.h"

/* What follows from the record, the pass in hand and the entry. */

/* Derive again what depends on the entry, or on the record and the entry. */
void app_refresh_entry(struct app *app);
void app_refresh(struct app *app);

/* Lays out the leaf's cells again after what they depend on has changed. */
void app_lay(struct app *app);

/* Lays out a leaf's cells as they are in a pass. */
void app_lay_on(const struct app *app, const struct leaf_row *leaf, struct pass_place pass,
                struct route *route);

/* Drops what is typed. */
void app_drop_entry(struct app *app);

#endif
