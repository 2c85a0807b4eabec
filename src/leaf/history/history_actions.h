/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_HISTORY_HISTORY_ACTIONS_H
#define SILLET_LEAF_HISTORY_HISTORY_ACTIONS_H

#include "leaf/history/history.h"
#include "session/turn.h"

/* The commands of the History leaf. */

/* Looks at the pass, or the row, `by` further on; stops at the ends. */
void history_look_pass(struct turn *turn, int by);
void history_look_row(struct turn *turn, int by);
bool history_has_earlier(const struct app *app);
bool history_has_later(const struct app *app);

/* Takes the pass looked at in hand, and turns to the bench. */
void history_open(struct turn *turn);
bool history_has_pass(const struct app *app);

/* Whether any pass is measured. */
bool history_has_any(const struct app *app);

/* Writes the label of the pass looked at, then its note. After these two cells, or at Esc, the
 * passes are looked at again. */
void history_name(struct turn *turn);
bool history_can_name(const struct app *app);

#endif
