/* SPDX-License-Identifier: MIT */
#ifndef SILLET_LEAF_STRINGS_STRINGS_PUT_H
#define SILLET_LEAF_STRINGS_STRINGS_PUT_H

#include "session/turn.h"

/* Readings of a string as a what-if puts them into the record. */

/* Puts a text, or with NULL takes the reading out; leaves alone what is the same already. And a
 * diameter the way a packet says it, ".012 in"; 0 takes it out. */
enum status strings_put(struct turn *turn, enum field_id field, int string, const char *text);
enum status strings_put_diameter(struct turn *turn, enum field_id field, int string, double mm);

/* What was said of one particular string, on the scales or on its label: whether a string has any
 * of it, and taking it out, for another string does not have it. */
bool strings_have_own(const struct app *app, int string);
enum status strings_drop_own(struct turn *turn, int string);

#endif
