/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_SAME_NAME_H
#define SILLET_MODEL_COMMON_SAME_NAME_H

#include <stdbool.h>

/* Names as people type them into a table's search: ASCII case ignored, blanks around them
 * too, and a run of blanks, hyphens and underscores counts as one blank. */

bool same_name(const char *a, const char *b);

/* Nothing but what same_name counts as blank. */
bool same_name_is_blank(const char *name);

#endif
