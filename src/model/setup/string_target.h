/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_STRING_TARGET_H
#define SILLET_MODEL_SETUP_STRING_TARGET_H

#include "model/setup/setup.h"

/* What is wanted of one string, mm; absent where a target that it needs is. */

struct maybe string_target_gap(const struct setup *setup, int string);

/*
 * A string that starts higher has its nut nearer, so that over a level bridge it stands lower at
 * the action fret than one of full length: what is wanted of it is what it reads where a string of
 * full length in its place would be at its target, the relief at its own. Absent where it starts
 * so high that no fret before the action fret is left to it.
 * Source: similar triangles (docs/method.md, 13).
 */
struct maybe string_target_action(const struct setup *setup, int string);

#endif
