/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_APP_INSIDE_H
#define SILLET_APP_APP_INSIDE_H

#include "app/app.h"

/* Inside app only: what app.c keeps up to date and app_handle.c calls for. */

/* Derives again what hangs on the entry alone, and on the record. */
void app_refresh_entry(struct app *app);
void app_refresh(struct app *app);

/* Takes a pass in hand, at its first cell, the entry empty. */
void app_take_pass(struct app *app, int visit, int pass);

/* True when no cell of the pass in hand has a reading. */
bool app_pass_is_empty(const struct app *app);

#endif
