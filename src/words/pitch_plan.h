/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_PITCH_PLAN_H
#define SILLET_WORDS_PITCH_PLAN_H

#include "model/derive/derive.h"

/*
 * What the cents read in a pass ask of saddle and nut, string by string, and the curves to
 * hold them against. Positive cents are sharp; a setback is behind the scale length, a nut
 * advance toward the saddle.
 */

/* The fret by which the trade sets a saddle. */
enum { PITCH_OCTAVE_FRET = 12 };

enum pitch_state {
    PITCH_UNREAD,  /* no cents read on the string */
    PITCH_IN_TUNE, /* within the cents tolerance */
    PITCH_WITHIN,  /* off, but the move is smaller than its own uncertainty */
    PITCH_DUE,
};

struct pitch_move {
    enum pitch_state state;
    int count;       /* frets read */
    int fret;        /* the one that the saddle is set by: 12, else the one read nearest to it */
    double cents;    /* read there */
    bool has_change; /* false also where no setback cures so many cents */
    double change_mm, change_u_mm; /* of the setback; expanded, k = 2 */
    double contact_mm;             /* saddle contact from the nut, as it is */
    /* From all frets read, at two or more: both ends moved, and what that leaves. */
    bool has_fit;
    double fit_setback_mm, fit_setback_u_mm, fit_nut_mm, fit_nut_u_mm, fit_cents;
};

/* The notes of one string. */
struct pitch_curve {
    int string;
    struct cents_read read;
    /* The cents to be had at best: after the moves, with the best setback and nut advance. */
    struct maybe best_cents[FRETS_MAX + 1];
};

struct pitch_plan {
    int strings;
    double tolerance_cents;
    struct pitch_move string[STRINGS_MAX + 1]; /* by string, [0] unused */
    struct pitch_curve curve;
};

/* For the place that `derived` was derived at; the curve is that of `string`, which may be
 * none. */
void pitch_plan_make(struct place place, const struct derived *derived, int string,
                     struct pitch_plan *ret_plan);

/* "+1.48 ±0.21" (plus: back), "leave it", "" where nothing was read; its unit stands over it. */
void pitch_add_short(const struct pitch_move *move, const struct shop_units *units,
                     struct strbuf *out);

/* The move in full, with what it rests on and whether it is worth making. */
void pitch_add_move(const struct pitch_plan *plan, int string, const struct shop_units *units,
                    struct strbuf *out);

/* What saddle and nut together would do, from all frets read; else what is missing. */
void pitch_add_fit(const struct pitch_plan *plan, int string, const struct shop_units *units,
                   struct strbuf *out);

/* The setback predicted for the targets, and the best compromise; else what is missing. */
void pitch_add_predicted(const struct derived *derived, int string, const struct shop_units *units,
                         struct strbuf *out);

/* Where the string has to leave the saddle, as it is and after the move that is due. */
void pitch_add_contact(const struct pitch_move *move, const struct shop_units *units,
                       struct strbuf *out);

/* What to mind when the saddle is moved; "" with no move due. */
const char *pitch_caution(const struct pitch_plan *plan);

#endif
