/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_BENCH_OWN_STRING_H
#define SILLET_LEAF_BENCH_OWN_STRING_H

#include "session/turn.h"

/*
 * A course is read once, on its first string. On one of its cells this begins the next string's own
 * readings; on a cell of such a string it takes it with its course again. Readings of its own in
 * the visit go then, which it asks about.
 */
void own_string_toggle(struct turn *turn);
bool own_string_can(const struct app *app);
void own_string_add(const struct app *app, struct strbuf *out);

#endif
