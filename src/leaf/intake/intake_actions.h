/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_INTAKE_INTAKE_ACTIONS_H
#define SILLET_LEAF_INTAKE_INTAKE_ACTIONS_H

#include "session/turn.h"

/* The intake leaf's own commands. */

/* Has the record's targets kept as the shop's own for its kind, or these forgotten. What came of it
 * is said by whoever carries it out. */
void intake_keep_targets(struct turn *turn);
void intake_forget_targets(struct turn *turn);

/* Whether the record has a kind and a target; whether the shop has targets for its kind. */
bool intake_can_keep_targets(const struct app *app);
bool intake_can_forget_targets(const struct app *app);

/* Appends the kind: " for steel-string". */
void intake_add_kind(const struct app *app, struct strbuf *out);

#endif
