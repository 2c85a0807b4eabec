/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_SETBACK_H
#define SILLET_MODEL_SETUP_SETBACK_H

#include "model/reading/outfit.h"
#include "model/reading/place.h"

/* How far behind its scale's end a string rests on the saddle, as of a pass. */
struct setback {
    struct maybe mm;  /* absent where nobody knows: not entered, or moved by an unknown amount */
    bool is_expected; /* not read since its saddle was moved: what was read before, and the moves
                       * that work lines tell in numbers */
    double about_mm;  /* mm; where it is absent what was last read, else 0 */
};

/*
 * The last reading up to the pass, its own, else that of its course's first string; else what the
 * visit has. Moves count only from what a pass read: of any other setback nobody knows whether it
 * was entered before them or after.
 */
void setback_find(struct place place, const struct outfit *outfit, int string,
                  struct setback *ret_setback);

#endif
