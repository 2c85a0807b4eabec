/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_DOUBT_DOUBT_H
#define SILLET_MODEL_DOUBT_DOUBT_H

#include <stdbool.h>

#include "model/reading/record.h"
#include "model/reading/record_access.h"

/*
 * Whether a reading is likely to be what was read, before it is filed: a point left out, a gap
 * in the action's row, a key that did not answer. A doubt costs one more Enter, so it must be
 * rare in honest work; a wrong reading that passes costs a nut. What is *usual* for a field
 * stands in field_table.h. The rest, all from memory of bench work:
 *
 * - Finer than its gauge: no leaf reads less than two thirds of its step, no rule less than two of
 *   its own (a 64th where its step is a 128th), and no hand turns a rod by less than a twentieth.
 *   Nor is a rule divided by anything but powers of two: 7/46 is no fraction of an inch, and 2.4
 *   in 64ths lies between the marks and is a number of mm.
 * - Unlike its row, of what this pass has read there. Between two strings: farther than the slack
 *   from both. At an end: farther than the slack from the nearest one and from where the line from
 *   the next one through it leads; where those two do not go with each other one of them truly is
 *   off, and either will do. So one string that is off, once filed, puts none beside it in doubt.
 *   Beside one string alone the slope is not known.
 *   How large the slack is, and how far the targets of the two outer strings may lie apart, stands
 *   with each row in bench_row_table.h: what one nut, or saddles set one by one, leave uneven.
 * - Unlike the pass before, where nothing of the row was read in this one: what was read then,
 *   what should be read now and what is wanted span a range, and work may leave it by a quarter of
 *   that. Around it a hand errs, with the gauge's step, by less than the row's before_mm. Where
 *   nobody can say what to expect (after a reset, read in another way, in another visit) nothing is
 *   compared.
 * - A board that readings stand on does not change: another number of strings or frets, or a
 *   scale more than a fiftieth longer or shorter, is asked about; and so is a fret beyond the last.
 * - A core is thinner than its string, and a plain string no thicker than .030 in (0.76 mm). A
 *   string is not retuned by an octave.
 * - The driest air where it lives is not damper than the dampest.
 * - Of a move, what was done in one or two letters: that is likely a command (u, d, ok is said by
 *   the mark itself).
 * - Work on a move that is not due, and an amount of one that is not understood: likely a digit
 *   that was meant for another cell.
 * - Work of the tech's own that is named without a letter: that is likely a reading, and it would
 * be printed for the owner.
 * - Turns of the rod that go the other way than its move: most likely a minus left out.
 * - A day to come, out of order with the visits around it, or more than 50 years back; a day
 *   promised over a year ahead, or before the visit; a year of
 *   building to come or too long ago, where it is a bare year, with a digit too few or too many.
 *   (No other text is looked at.)
 */
enum doubt_kind {
    DOUBT_NONE,
    DOUBT_LARGE,    /* over what is usual for the field */
    DOUBT_SMALL,    /* under it */
    DOUBT_FINE,     /* finer than its gauge reads */
    DOUBT_PARTS,    /* a fraction that no rule has: `parts` below its line */
    DOUBT_BOARD,    /* readings stand on another board: `beside` */
    DOUBT_BEYOND,   /* a fret beyond the last: `beside` */
    DOUBT_CORE,     /* no thinner than its string: `beside` */
    DOUBT_GAUGE,    /* no thicker than its core: `beside` */
    DOUBT_AIR,      /* a home's driest air not drier than its dampest: `beside` */
    DOUBT_PLAIN,    /* too thick for a plain string */
    DOUBT_OCTAVE,   /* a note far from the one that was to be expected: `beside` */
    DOUBT_BESIDE,   /* unlike its row: `beside`, `string` */
    DOUBT_BEFORE,   /* unlike the pass before: `beside` is what was to be expected */
    DOUBT_SIGN,     /* turns against the rod's move: `likely` has the other sign */
    DOUBT_FUTURE,   /* a day or year to come, or too far to come */
    DOUBT_ORDER,    /* a day out of order with another `visit`, or before that of its own */
    DOUBT_LONG_AGO, /* a day or year too long ago */
    DOUBT_LETTERS,  /* a letter or two, where a text says what was done of a move */
    DOUBT_NO_WORD,  /* no letter in the name of a tech's own work */
    DOUBT_NOT_DUE,  /* work on a move that is not due */
    DOUBT_UNREAD,   /* an amount of a move that is not understood */
    /* These are seen to by the session. */
    DOUBT_NAME,  /* a text that is near a name of its list */
    DOUBT_FILED, /* it replaces a work line, or what an earlier pass or visit read */
};

struct doubt {
    enum doubt_kind kind;
    double beside;  /* what the reading is compared with, in the pivot unit */
    int string;     /* whose that is; 0 for the saddle's other end */
    bool is_course; /* its course of that number, where courses are read as one */
    int visit, parts;
    bool has_likely;
    double likely;         /* what the same digits would be with a point or a unit that fits */
    enum unit likely_unit; /* that unit; UNIT_NONE where it is the cell's */
    bool has_other;
    enum field_id other; /* it would be a usual reading of this field */
};

/* An entry as it would be filed. */
struct doubt_entry {
    const char *text; /* as the profile would keep it */
    struct field_value value;
    bool whole;  /* typed as digits alone: a point may be missing */
    double bare; /* the number typed, where it is one alone; 0 where it has a unit of its own */
};

/* What the record alone does not tell. */
struct doubt_about {
    const char *today;     /* 2026-03-02; "" where it is not known */
    struct maybe before;   /* what the pass before read */
    struct maybe expected; /* what should be read now; the two pivot unit */
    struct maybe wanted;   /* the target */
    bool of_move;          /* it says what was done of a move, */
    bool not_due;          /* of one that is on target or waits, */
    bool unread;           /* in an amount that is not understood */
    double rod_way;        /* the rod's move: 1 tightens, -1 slackens, 0 where none is due */
};

/* The doubt that filing an entry under `key` raises. A reading that stands there already is no
 * neighbour of its own. */
struct doubt doubt_find(const struct record *record, const struct reading_key *key,
                        const struct doubt_entry *entry, const struct doubt_about *about);

#endif
