/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_PITCH_INTONATION_READING_H
#define SILLET_MODEL_PITCH_INTONATION_READING_H

#include "base/status.h"
#include "model/pitch/intonation.h"

/*
 * What measured cents say should be moved, from the string's length alone: no mass, core
 * or modulus is needed. Positive cents are sharp.
 */

/*
 * The change of setback that brings one fret into tune: k = 2^(-c/1200),
 * Ls l (k - 1)/(l - k Ls), l = Ls - x_n; positive moves the saddle back. Ls > x_n > 0.
 * STATUS_DOMAIN where the note is so sharp that no setback cures it (c at or past 100 n),
 * or on a bad number. Check (common practice): about 0.015 in a cent at fret 12 of a
 * 25.5 in scale.
 */
enum status intonation_setback_change(double open_length_mm, double fret_mm, double cents,
                                      double *ret_change_mm);

struct fret_cents {
    int fret; /* 1 to INTONATION_FRETS_MAX */
    double cents;
};

/* Changes of setback and nut advance, the cents that they would leave, and how far each
 * change answers to its readings: its standard uncertainty where each of them has one of
 * 1 cent, mm per cent. */
struct intonation_fit {
    struct intonation_ends change;
    double cents_left_rms;
    struct intonation_ends u_per_cent;
};

/*
 * Least squares over several frets of one string:
 * cents + (1731.23/L)(s (1 - 2^(n/12)) - v) = 0. STATUS_ABSENT with readings at fewer than
 * two frets; STATUS_DOMAIN for a bad number.
 */
enum status intonation_fit_readings(double scale_mm, const struct fret_cents *readings, int count,
                                    struct intonation_fit *ret_fit);

#endif
