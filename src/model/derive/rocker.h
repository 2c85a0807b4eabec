/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_ROCKER_H
#define SILLET_MODEL_DERIVE_ROCKER_H

#include "model/derive/derive.h"

/* What the fret rocker found: it was laid on the fret, so it counts before any guess by ear. */

/* Whether a crown is so high that a hand can work it down. */
bool rocker_is_high(struct maybe spot_mm);

/*
 * The fret found high that explains the buzz heard on a string no worse than the best guess does;
 * 0 if none. `heard` is of that string (derive_heard).
 */
int rocker_find(struct place place, const struct derived *derived, int string,
                const enum clearance_heard *heard);

#endif
