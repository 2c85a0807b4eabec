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

/* Lays them out as they would be in another pass; app_lay has to follow. */
void app_lay_for(struct app *app, struct pass_place pass);

/* Drops what is typed. */
void app_drop_entry(struct app *app);

#endif
