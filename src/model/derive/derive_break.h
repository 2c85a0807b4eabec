/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_BREAK_H
#define SILLET_MODEL_DERIVE_DERIVE_BREAK_H

#include "model/figure/figure.h"
#include "model/reading/record.h"
#include "model/setup/setup.h"

/*
 * Break angle and force on the saddle under the outer strings, and of all strings together, into
 * `figures`, each with its +-. Where they are defined: the distance to the anchor is known, and
 * so is how far down the string is held: read there with a straightedge on the string, or the
 * exposure, where a blank saddle stands on a flat top and the strings are held at the top of its
 * bridge. Tailpieces, screws, posts and wheels need the first. Slopes and pulls are taken from
 * `figures`.
 */
void derive_break(const struct record *record, const struct setup *setup, struct figures *figures);

#endif
