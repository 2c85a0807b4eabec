/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_WHEN_H
#define SILLET_COMMANDS_WHEN_H

#include <stdbool.h>

/* Days as numbers (day.h); `end` is the first that is no longer in it. */
struct when {
    int first, end;
};

/*
 * Reads a day as people type it (day_read, days that have been), a month as 2026-11, or a year as
 * 2026. False, with a message that begins with `who`, for anything else.
 */
bool when_read(const char *text, const char *who, struct when *ret_when);

#endif
