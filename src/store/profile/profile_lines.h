/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_LINES_H
#define SILLET_STORE_PROFILE_PROFILE_LINES_H

#include "store/profile/profile_load.h"

/* Adds what is wrong with the lines as lines, whatever they say; true if all are blank or comments.
 * *ret_known_sections says how many sections are ones of a profile. */
bool profile_report_lines(const struct profile_content *content, struct problems *problems,
                          size_t *ret_known_sections);

#endif
