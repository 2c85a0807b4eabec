/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_RETUNE_H
#define SILLET_LEAF_STRINGS_RETUNE_H

#include "session/turn.h"

/* Another tuning in a visit that was read bends the neck as other strings do: a work line says so,
 * and what was read has to be measured again. A correction is none. */

/* Keeps the notes and gauges as they are on file. */
void retune_begin(struct app *app);

/* Files that line where a string has another note since retune_begin, and says so; false if not. */
bool retune_end(struct turn *turn);

/* Appends the tuning's name, or its notes from the bass string on. */
void retune_add_tuning(const struct app *app, struct strbuf *out);

/* Appends ", .012 in to .053 in": the thinnest and the thickest as filed; nothing where a gauge is
 * not. */
void retune_add_gauges(const struct app *app, struct strbuf *out);

#endif
