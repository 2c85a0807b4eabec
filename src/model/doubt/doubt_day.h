/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_DOUBT_DAY_H
#define SILLET_MODEL_DOUBT_DOUBT_DAY_H

#include "model/doubt/doubt.h"

/* The part of doubt.h that is about days and years. */

/* A date, or a time that may bring its date along; a time alone raises no doubt. */
struct doubt doubt_of_day(const struct record *record, const struct reading_key *key,
                          const char *text, const struct doubt_about *about);

/* A text that is a bare year, in which something was built. */
struct doubt doubt_of_year(const char *text, const struct doubt_about *about);

#endif
