/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_TYPED_TEXT_H
#define SILLET_SESSION_TYPED_TEXT_H

#include "session/app.h"

/*
 * The entry as it is meant: what is typed, but for a note without its octave ("E", "Eb"), which
 * gets the octave nearest to what the cell holds, else to the string's note, else to how such an
 * instrument is tuned. Gives back `memory` or the entry's own text.
 */
const char *typed_text(const struct app *app, char memory[ENTRY_TEXT_MAX]);

#endif
