/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_STRINGS_H
#define SILLET_DEMO_DEMO_STRINGS_H

#include "demo/demo_book.h"

/* Puts other strings on in the visit in hand, and a line of work that says so: a set by its name,
 * or with "" the same set again. The neck bends by what they pull. A set of another number of
 * strings is the same set again. */
void demo_strings_restring(struct demo_book *book, struct demo_neck *neck, const char *set);

#endif
