/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_DERIVE_SADDLE_TOP_H
#define SILLET_MODEL_DERIVE_DERIVE_SADDLE_TOP_H

#include "model/derive/derive_strings.h"
#include "model/setup/moves.h"

/*
 * The top of the saddle, into `figures`: its radius, and how far each inner string's top stands
 * over the line of the outer two (saddle_top.h), for a neck, slots and action that are at their
 * targets; and how far it stands now, by the readings. Absent without both radii of the board, the
 * strings' places at nut and saddle (string_places.h), and the targets, or the readings.
 */
void derive_saddle_top(const struct record *record, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       struct figures *figures);

#endif
