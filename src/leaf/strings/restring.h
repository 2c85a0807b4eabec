/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_RESTRING_H
#define SILLET_LEAF_STRINGS_RESTRING_H

#include "session/turn.h"

/* Restrung today: files the what-if's strings and tuning, or without one the same set again, and a
 * work line that says which, in one step of undo. Other strings than a visit was read with go into
 * a new one, so that what was read stays with the strings it was read on; it asks. */
void restring_do(struct turn *turn);
bool restring_can(const struct app *app);
void restring_add_with(const struct app *app, struct strbuf *out);

#endif
