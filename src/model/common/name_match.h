/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_COMMON_NAME_MATCH_H
#define SILLET_MODEL_COMMON_NAME_MATCH_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"

/*
 * How a typed text goes with a name. Compared are folded texts: ASCII in lower case; a run of
 * blanks, hyphens, underscores, slashes and commas as one blank, and none at either end.
 */

/* From nothing to the same. */
enum name_fit {
    NAME_FIT_NONE,
    NAME_FIT_NEAREST,   /* a few letters differ */
    NAME_FIT_WORD,      /* a whole word of the text is one of the name: "flamed maple" */
    NAME_FIT_BEGINNING, /* each word of the text begins another of the name, in any order */
    NAME_FIT_SAME,
};

struct name_match {
    enum name_fit fit;
    int distance; /* with NAME_FIT_NEAREST: letters to change, drop, add or swap */
};

enum { NAME_FOLDED_SIZE = 96 };

/* Folds a text; of a longer one, the beginning. */
void name_fold(const char *text, char folded[NAME_FOLDED_SIZE]);

/* Both folded. An empty text goes with nothing. */
struct name_match name_match(const char *text, const char *name);

/* Appends the k-th (from 0) of names with semicolons between, as the tables have them; false past
 * the last. */
bool name_add_one_of(const char *names, int k, struct strbuf *out);

#endif
