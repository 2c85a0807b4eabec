/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TYPED_TEXT_H
#define SILLET_SESSION_TYPED_TEXT_H

#include "session/app.h"

/*
 * The entry with the octave that it may leave out: a note without one ("E", "Eb") gets the octave
 * nearest to what the cell holds, else to the string's note, else to how such an instrument is
 * usually tuned. Returns `memory`, or the entry's own text if nothing was added.
 */
const char *typed_text(const struct app *app, char memory[ENTRY_TEXT_MAX]);

#endif
