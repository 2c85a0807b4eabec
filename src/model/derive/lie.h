/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_LIE_H
#define SILLET_MODEL_DERIVE_LIE_H

#include "model/reading/place.h"
#include "model/setup/setup.h"

/*
 * How the strings lie over the frets at a pass that did not read it: as an earlier pass of its
 * visit did, until work may have changed it, or readings show that they lie otherwise.
 */

/* The first pass of its visit that is looked back at; what was read or heard before says little
 * more. */
int lie_first_pass(struct place place);

/* Whether a string may lie otherwise at `to` than at `from`, an earlier pass of the same visit. */
bool lie_is_other(struct place from, struct place to, int string);

/* Whether work between two passes of a visit may have changed how a crown stands among its
 * neighbours. */
bool lie_is_dressed(struct place from, struct place to);

/* Adds to *setup, which was read at `place`, what its pass did not read and still holds: relief,
 * gaps, actions and fall-away where it read none of these but what it read of whole strings, after
 * work on them; and each spot that it did not rock, until the frets were worked on. A pass that is
 * but begun says nothing yet. */
void lie_take(struct setup *setup, struct place place);

#endif
