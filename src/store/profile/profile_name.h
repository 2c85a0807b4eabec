/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_NAME_H
#define SILLET_STORE_PROFILE_PROFILE_NAME_H

#include <stdbool.h>

#include "base/strbuf.h"

/* What a file on the shelf is called. */

/* So many instruments can have one name, or lie in the archive by it. */
enum { PROFILE_NUMBERS_MAX = 999 };

/* The longest start of a file name, in bytes. */
enum { PROFILE_STEM_MAX = 60 };

/* Whether a shelf lists a file of that name. */
bool profile_name_is_listed(const char *file);

/* STEM.ini, STEM-2.ini and so on; to be freed, NULL without memory. */
char *profile_name_numbered(const char *stem, size_t length, int number);

/*
 * Appends the file name that a name becomes, without ".ini": ASCII letters (lower case) and
 * digits, all else a dash, none at the ends, never two together; "instrument" where nothing
 * is left.
 */
void profile_name_make(const char *name, struct strbuf *out);

#endif
