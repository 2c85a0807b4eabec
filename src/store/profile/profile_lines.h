/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_LINES_H
#define SILLET_STORE_PROFILE_PROFILE_LINES_H

#include "store/profile/profile_load.h"

/* Adds what is wrong with the lines as lines, whatever they say. */
void profile_report_lines(const struct profile_content *content, struct problems *problems);

/* Whether the lines are those of a profile: with a good [end], with any section of one, or all
 * blank or comments. */
bool profile_is_one(const struct profile_content *content);

#endif
