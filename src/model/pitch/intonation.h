/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_INTONATION_H
#define SILLET_MODEL_PITCH_INTONATION_H

#include "base/status.h"
#include "model/strings/tension.h"

/*
 * The pitch of a fretted string, with the tension that pressing adds and the stiffness of
 * the string. Geometry after M. B. Anderson and R. G. Beausoleil, "Classical guitar
 * intonation and compensation", J. Acoust. Soc. Am. 156 (1), 683 (2024); stiffness after
 * P. M. Morse, Vibration and Sound.
 *
 *   l0 = hypot(Ls - v, S - N), l = hypot(Ls - x_n, S - z_n), Ls = L + s
 *   dip = q (S - z_n)/(Ls - x_n) + p
 *   path = hypot(x_n - q - v, z_n - dip - N) + hypot(q, dip) + l
 *   T0 = mu (2 l0 f)^2, Tn = T0 + E A (path - l0)/(l0 + after)
 *   mu_n = mu (l0 + after)/(after + path)
 *   B(T, l) = 1 + e b + (e^2 + pi^2/2) b^2, b = sqrt(E I/T)/l
 *   cents(n) = 1200 log2(sqrt(Tn/mu_n)/(2 l) B(Tn, l) / (f B(T0, l0))) - 100 n
 *
 * Every function returns STATUS_DOMAIN for a number that the formulas cannot take
 * (negative mass, a saddle in front of a fret, NaN, infinity), STATUS_ABSENT where mass,
 * frequency, core or modulus is 0 (not known) or the board lacks a fret that is asked for.
 */

/* The most frets that a board may have here. */
enum { INTONATION_FRETS_MAX = 64 };

/* How the string is held and pressed. */
struct intonation_conditions {
    double press_distance_mm; /* q, >= 0; cut to half the fret space */
    double press_depth_mm;    /* p, >= 0 */
    double free_length_mm;    /* behind nut and saddle, >= 0 */
    double clamped_ends;      /* e, 0 to 2 */
};

/* One string on its board. Heights are over the chord. */
struct intonation_setup {
    double mass_kg_per_m;
    double hz; /* of the open string */
    struct string_core core;
    double modulus_mpa;
    struct intonation_conditions conditions;
    double scale_mm;
    double nut_height_mm, saddle_height_mm; /* N, S */
    int frets;                              /* 0 to INTONATION_FRETS_MAX */
    const double *fret_mm;  /* x_0 .. x_frets from the nut's front edge, x_0 = 0, rising */
    const double *crown_mm; /* z_0 .. z_frets */
};

/* Where the ends are: s and v. */
struct intonation_ends {
    double setback_mm;     /* saddle behind the scale length */
    double nut_advance_mm; /* nut's front moved toward the saddle */
};

/* One note. Fret 0 is the open string: cents 0, no slope. */
struct intonation_note {
    double cents; /* off equal temperament from the open string */
    double open_tension_n, tension_n;
    double open_length_mm, length_mm; /* sounding */
    double stretch_mm;                /* path - l0 */
};

/* How a note's cents answer to what can be moved, cents per mm (clamped_ends: per end). */
struct intonation_slope {
    double setback, nut_advance, press_depth, clamped_ends;
};

/* One note; ret_slope may be NULL. */
enum status intonation_find_note(const struct intonation_setup *setup,
                                 const struct intonation_ends *ends, int fret,
                                 struct intonation_note *ret_note,
                                 struct intonation_slope *ret_slope);

/* The notes of frets `first` to `last`, 0 <= first <= last, into ret_notes[0 .. last - first],
 * and their slopes likewise; all or none. ret_slopes may be NULL. */
enum status intonation_find_notes(const struct intonation_setup *setup,
                                  const struct intonation_ends *ends, int first, int last,
                                  struct intonation_note *ret_notes,
                                  struct intonation_slope *ret_slopes);

/* Cents of frets 0 to `frets`, into ret_cents[0 .. frets]; all or none. */
enum status intonation_find_cents(const struct intonation_setup *setup,
                                  const struct intonation_ends *ends, double *ret_cents);

/*
 * The setback with which `fret` (the trade's 12) is in tune, nut advance 0. Heights stay
 * as they are. Looked for within a quarter of the scale either way;
 * STATUS_NOT_CONVERGED when it lies farther.
 */
enum status intonation_find_setback(const struct intonation_setup *setup, int fret,
                                    double *ret_setback_mm);

struct intonation_best {
    struct intonation_ends ends;
    double cents_rms; /* what is left over the frets looked at */
};

/*
 * The setback and nut advance with the least sum of squared cents over frets `first` to
 * `last` (the trade's 1 to 12; at least two). Gauss-Newton on the exact cents, begun at
 * (0, 0). STATUS_NOT_CONVERGED where the nut would have to go past a fret, as conditions
 * that no player meets (pressed deep right at the fret) can ask for.
 */
enum status intonation_find_best(const struct intonation_setup *setup, int first, int last,
                                 struct intonation_best *ret_best);

/*
 * B(T, l) for b = sqrt(E I/T)/l >= 0 and e of 0 to 2: how much stiffness raises a string's
 * pitch. To second order in b: Morse for e = 2, Anderson and Beausoleil for e = 1, Fletcher
 * (1964) for e = 0.
 */
enum status intonation_stiffness_factor(double stiffness, double clamped_ends, double *ret_factor);

#endif
