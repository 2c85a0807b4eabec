/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASTE_SPLIT_H
#define SILLET_SESSION_PASTE_SPLIT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * Takes a pasted text apart into the values that stand in it. Line ends, tabs and semicolons part
 * cells, so that two of them leave one out; any number of blanks, a comma before them too, are one
 * gap. In numbers a fraction belongs to the whole number before it ("8 1/4"), a unit to its number
 * ("24 mm").
 */
struct paste_split {
    const char *text; /* not owned; what is left of it */
    const struct field *field;
};

/* Appends the next value to `out`, nothing for a cell left out; false at the text's end. */
bool paste_next(struct paste_split *split, struct strbuf *out);

/* How many values there are, cells left out among them. */
int paste_count(const char *text, const struct field *field);

#endif
