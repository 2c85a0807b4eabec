/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_NAME_H
#define SILLET_STORE_PROFILE_PROFILE_NAME_H

#include <stdbool.h>

#include "base/strbuf.h"

/* The file names of profiles. */

/* How many instruments of one name a folder can hold. */
enum { PROFILE_NUMBERS_MAX = 999 };

/* The longest file name made of an instrument's name, in bytes, without number and .ini. */
enum { PROFILE_STEM_MAX = 60 };

/* Whether the shelf lists files of that name. */
bool profile_name_is_listed(const char *file);

/* STEM.ini, STEM-2.ini and so on. The caller frees it; NULL if out of memory. */
char *profile_name_numbered(const char *stem, size_t length, int number);

/*
 * Appends a file name made of an instrument's name, without ".ini": lower-case ASCII letters and
 * digits, with single dashes for everything between them; "instrument" if nothing is left.
 */
void profile_name_make(const char *name, struct strbuf *out);

#endif
