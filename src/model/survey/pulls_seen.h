/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SURVEY_PULLS_SEEN_H
#define SILLET_MODEL_SURVEY_PULLS_SEEN_H

#include "model/reading/record.h"
#include "model/survey/pull_answer.h"

/*
 * What a record's own restrings show of its neck: relief read before and after other strings went
 * on in a visit, with no turn of the rod between. The first of these passes had the strings of the
 * visit before. Both are read in the same air.
 */
enum { PULLS_SEEN_MAX = 8 };

/* Those of the last visits, up to the one that the record answers as of; returns how many. The
 * pulls are as surely known as assumption_table.h says, which for a neck that bends as `prior` says
 * is part of their uncertainty. */
int pulls_seen_find(const struct record *record, const struct pull_answer *prior,
                    struct pull_seen ret_seen[PULLS_SEEN_MAX]);

#endif
