/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_PASTE_SPLIT_H
#define SILLET_SESSION_PASTE_SPLIT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * Splits a pasted text into its values. Line ends, tabs and semicolons separate cells, so that two
 * in a row skip a cell; blanks and commas in any number are one gap. In numbers a fraction belongs
 * to the whole number before it ("8 1/4"), and a unit to its number ("24 mm").
 */
struct paste_split {
    const char *text; /* the rest of the text; not owned */
    const struct field *field;
};

/* Appends the next value to `out`, nothing for a skipped cell; false at the end of the text. */
bool paste_next(struct paste_split *split, struct strbuf *out);

/* The number of values, skipped cells included. */
int paste_count(const char *text, const struct field *field);

#endif
