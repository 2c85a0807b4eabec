/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_H
#define SILLET_MODEL_DOUBT_H

#include <stdbool.h>

#include "model/record.h"
#include "model/record_access.h"

/*
 * Whether a reading is likely to be what was read, before it is filed: a point left out, a gap
 * in the action's row, a key that did not answer. A doubt costs one more Enter, so it must be
 * rare in honest work; a wrong reading that passes costs a nut. What is *usual* for a field
 * stands in field_table.h. The rest, all from memory of bench work:
 *
 * - Finer than its gauge: no leaf reads less than half its step, no rule less than two of its
 *   own (a 64th where its step is a 128th), and no hand turns a rod by less than a twentieth.
 * - Unlike its row: a reading that fits neither of the two nearest to it. One string that truly
 *   is off, once filed, does not put its neighbour in doubt. Nut gaps of neighbours differ by
 *   less than 0.25 mm (.010 in) on a nut that one hand cut, actions by less than 0.7 mm where
 *   saddles are set one by one, high rows by less than a third and a quarter of what they read.
 *   Each string farther away allows 0.05 and 0.3 mm more, over what any board slopes from bass
 *   to treble. The two ends of a saddle stand out by less than 4 mm more or less.
 * - Unlike the pass before: what was read then, what should be read now and what is wanted span
 *   a range, and work may leave it by a quarter of that. Around it a hand errs, with the gauge's
 *   step, by less than 0.12 mm with leaves, 0.6 mm with a rule, 1.5 mm where a saddle's exposure
 *   is sighted. Where nobody can say what to expect (after a reset, read in another way, in
 *   another visit) nothing is compared.
 * - A board that readings stand on does not change: another number of strings or frets, or a
 *   scale more than a fiftieth longer or shorter, is asked about.
 * - A day to come, out of order with the visits around it, or more than 50 years back; a year of
 *   building to come. (Of all texts that one alone is looked at, where it is a bare year.)
 */
enum doubt_kind {
    DOUBT_NONE,
    DOUBT_LARGE,    /* over what is usual for the field */
    DOUBT_SMALL,    /* under it */
    DOUBT_FINE,     /* finer than its gauge reads */
    DOUBT_BOARD,    /* readings stand on another board: `beside` */
    DOUBT_BESIDE,   /* unlike its row: `beside`, `string` */
    DOUBT_BEFORE,   /* unlike the pass before: `beside` is what was to be expected */
    DOUBT_FUTURE,   /* a day or year to come */
    DOUBT_ORDER,    /* a day out of order with another `visit` */
    DOUBT_LONG_AGO, /* a day or year too long ago */
    DOUBT_NAME,     /* a text that is near a name of its list; the session sees to that */
};

struct doubt {
    enum doubt_kind kind;
    double beside; /* what the reading is compared with, in the pivot unit */
    int string;    /* whose that is; 0 for the saddle's other end */
    int visit;
    bool has_likely;
    double likely; /* what the same digits would be with a point or a unit that fits */
    bool has_other;
    enum field_id other; /* it would be a usual reading of this field */
};

/* An entry as it would be filed. */
struct doubt_entry {
    const char *text; /* as the profile would keep it */
    struct field_value value;
    bool whole; /* typed as digits alone: a point may be missing */
};

/* What the record alone does not tell. */
struct doubt_about {
    const char *today;       /* 2026-03-02; "" where it is not known */
    struct entered before;   /* what the pass before read */
    struct entered expected; /* what should be read now; the two pivot unit */
    struct entered wanted;   /* the target */
};

/* The doubt that filing an entry under `key` raises. A reading that stands there already is no
 * neighbour of its own. */
struct doubt doubt_find(const struct record *record, const struct reading_key *key,
                        const struct doubt_entry *entry, const struct doubt_about *about);

/*
 * The rule of the row for readings that are filed: true where string `string` was read and fits
 * neither of two neighbours. `field` is FIELD_NUT_GAP or FIELD_ACTION, `read` by string.
 */
bool doubt_is_odd_one(enum field_id field, const struct entered *read, int strings, int string);

#endif
