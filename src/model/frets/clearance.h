/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_FRETS_CLEARANCE_H
#define SILLET_MODEL_FRETS_CLEARANCE_H

#include <stdbool.h>

#include "base/status.h"

/*
 * Does a note buzz, and which fret is to blame?
 *
 * Stopped at fret n the string is a straight line from the crown of n to the saddle;
 * the open string (n = 0) runs from the slot bottom. Clear(n, k) is that line over the
 * crown of a fret k > n. A plucked ideal string stays within a parallelogram; its lower
 * side is the envelope: y t/p from the fret up to the pluck at t = p, y (l - t)/(l - p)
 * beyond, with t measured from the fret. One and the same pluck, y0 on the open string,
 * gives on the fretted one
 *
 *   y = y0 ((l - p)/l) / ((l0 - p0)/l0) T0/Tn,
 *
 * l = Ls - x_n and l0 = Ls along the board, T0 and Tn the tensions open and stopped. The
 * pluck is never farther from the saddle than half the sounding length, so the formula
 * counts the distances p from whichever end is nearer.
 * Source: the parallelogram is the classical motion of the plucked string (Helmholtz,
 * On the Sensations of Tone, app. III; from memory). The rule for y follows from equal
 * force at equal distance from the saddle. Stiffness and losses are ignored.
 */

enum { CLEARANCE_FRETS_MAX = 64 };

/* One string over one row of crowns. The arrays belong to the caller. */
struct clearance_string {
    int open_note;           /* 0; of a string that starts higher, the fret of its own nut */
    int last_fret;           /* open_note + 1 to CLEARANCE_FRETS_MAX */
    const double *x_mm;      /* [open .. last]: 0 at the nut, then strictly rising */
    const double *z_mm;      /* [open .. last]: crowns over the chord; [open] is not looked at */
    double saddle_x_mm;      /* Ls, beyond the last fret */
    double nut_height_mm;    /* N over the chord; a zero fret's crown */
    double saddle_height_mm; /* S over the chord */
    double open_tension_n;   /* T0 > 0 */
    const double *tension_n; /* [open .. last]: stopped at n, > 0; [open] is not looked at */
    double pluck_mm;         /* pluck to saddle, > 0 */
    /* [open .. last], or NULL: by how much at most a fret may stand higher than measured, as the
     * rocker leaves it; INFINITY where it was not rocked. */
    const double *doubt_mm;
};

/*
 * All of these: STATUS_ABSENT for a missing array, STATUS_DOMAIN for a number that is not
 * finite or outside the ranges above (also a note not in open .. last - 1, a fret not in
 * note + 1 .. last), STATUS_RANGE where the answer would not be a finite number.
 */

/* Clear(note, fret), mm. Negative: the string lies on that fret. */
enum status clearance_find_clear(const struct clearance_string *string, int note, int fret,
                                 double *ret_clear_mm);

/* How far below its line the string swings at `fret`, mm, for a pluck y0 >= 0. */
enum status clearance_find_envelope(const struct clearance_string *string, int note, int fret,
                                    double y0_mm, double *ret_envelope_mm);

/* Both for every fret ahead of a note, note + 1 .. last, the envelope for a pluck of 1 mm; the
 * other elements of the arrays, [0 .. last], are left alone. */
enum status clearance_find_ahead(const struct clearance_string *string, int note,
                                 double *ret_clear_mm, double *ret_envelope_mm);

/* Clear less envelope, mm: negative means a buzz. */
enum status clearance_find_margin(const struct clearance_string *string, int note, int fret,
                                  double y0_mm, double *ret_margin_mm);

/*
 * Headroom(note): the least over all frets ahead of clear/(envelope/y0), which is the
 * largest pluck y0 on the open string that this note takes without a buzz, and the fret
 * where it lies (ret_at may be NULL). Where the crowns ahead lie on one straight line the
 * quotients of those short of the pluck are equal, and any of these frets may be named.
 */
enum status clearance_find_headroom(const struct clearance_string *string, int note,
                                    double *ret_headroom_mm, int *ret_at);

/* What the ear said about a note. */
enum clearance_heard {
    CLEARANCE_NOT_PLAYED,
    CLEARANCE_CLEAN,
    CLEARANCE_BUZZES,
};

/* The fret that best explains what was heard, and why. */
struct clearance_high_fret {
    int fret;
    double least_mm;    /* it stands at least this much higher than measured, >= 0 */
    double most_mm;     /* and less than this, where `bounded`; else equal to least_mm */
    bool bounded;       /* a clean note below the fret limits it from above */
    int least_note;     /* the buzzing note that sets least_mm */
    int most_note;      /* the clean note that sets most_mm; -1 where not bounded */
    int buzz_explained; /* buzzing notes below the fret */
    int buzz_left;      /* buzzing notes at or above it, which it cannot explain */
    int clean_against;  /* clean notes below it that should have buzzed */
};

/*
 * For every fret k: lo = largest margin(n, k) of the buzzing notes n < k, the height that
 * makes all of them buzz; hi = smallest of the clean ones. Misfit = buzz_left +
 * clean_against. The least misfit wins, then the least lo, then the lower fret.
 * A fret whose lo is more than its doubt is none of them.
 * heard[0 .. last]; y0 > 0 is the touch that was used. STATUS_ABSENT when no note buzzes,
 * STATUS_NOT_FOUND when none buzzes below a fret that may stand so high.
 * Source: our own reasoning from the margins above; no published source.
 */
enum status clearance_find_high_fret(const struct clearance_string *string, double y0_mm,
                                     const enum clearance_heard *heard,
                                     struct clearance_high_fret *ret_high);

#endif
