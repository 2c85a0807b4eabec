/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DERIVE_TOUCH_H
#define SILLET_MODEL_DERIVE_TOUCH_H

#include <stdbool.h>

#include "model/frets/board.h"
#include "model/reading/place.h"

/* How much harder the next harder touch plucks. */
#define TOUCH_STEP 1.35

/*
 * How hard the owner plays: the part of the pluck that is square to the board, as displacement of
 * the open string where it is plucked. Most of a pluck goes along the board, so it is less than
 * the string moves. A usual set-up of a kind of instrument is just clean at a medium touch (common
 * practice), which gives each kind its own (touch_table.h); from the treble course to the bass it
 * changes evenly. Soft is 0.75 of it, hard 1.35. Notes heard clean and heard to buzz at the owner's
 * own playing say more than the word does.
 */
struct touch {
    double share;               /* of the medium touch of this kind, > 0 */
    struct maybe least, most;   /* what the ear leaves of it: the hardest note that buzzed, the
                                   softest that was clean */
    bool by_ear;                /* both are known and agree: notes may be counted by it */
    double mm[STRINGS_MAX + 1]; /* by string; a note of less headroom buzzes */
};

/* The touch as it was stated, or a medium one. */
struct touch touch_as_stated(const struct record *record, const struct outfit *outfit);

/* The notes heard on one string in a pass, n with bit n set, and the headroom of each then. */
struct touch_heard {
    uint64_t clean, buzzing;
    const struct maybe *headroom_mm; /* [0 .. FRETS_MAX] */
};

/* What was heard in some passes, as shares of the medium touch. */
struct touch_bounds {
    struct maybe least, most;
    uint64_t played[STRINGS_MAX + 1]; /* by string, [0] unused; so is this: */
    bool buzzes[STRINGS_MAX + 1];
};

/* Takes in what was heard on each string ([0] unused) in a pass, from the last one to earlier ones:
 * of one note the later pass counts. */
void touch_hear(struct touch_bounds *bounds, const struct record *record,
                const struct outfit *outfit, const struct touch_heard *heard);

/*
 * Corrects *touch, which is as stated, by what was heard. A clean note bounds it from above. Notes
 * that buzz bound it from below where they are on two strings or more, one touch explains all that
 * was heard, and it is no more than a step harder than what was stated; else a fret is to blame,
 * not the player. Unchanged where nothing was heard. Source: our own reasoning.
 */
void touch_listen(struct touch *touch, const struct record *record, const struct outfit *outfit,
                  const struct touch_bounds *bounds);

#endif
