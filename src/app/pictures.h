/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_PICTURES_H
#define SILLET_APP_PICTURES_H

#include "app/history.h"
#include "app/picture.h"
#include "model/derive.h"

/* The drawings: the neck from the side, cents along the board, a trend. */

/*
 * The neck from the side under a string, mm: along it from the nut to the last fret, and over
 * the chord. The crowns, the nut, the string as `derived` has it (as far as that is known), and
 * `other`, the same string at another time; NULL or unknown: none. False where the neck's curve
 * is not known, or the string is none of its board.
 */
bool picture_side(struct picture *ret_picture, const struct derived *derived, int string,
                  const struct string_line *other);

/* Marks in it what is measured at a fret: from the crown to the string, or to the chord. */
void picture_side_mark(struct picture *picture, const struct derived *derived, int string, int fret,
                       bool to_chord);

/* Cents along the board, over the band that is left alone: begun, then filled by curves and
 * readings, then ended, which rounds it to whole cents and labels them. */
void picture_cents_begin(struct picture *ret_picture, int frets, double tolerance_cents);

/* A curve by fret, broken where `known` (NULL: all) says so. False where there is nothing of it. */
bool picture_cents_curve(struct picture *picture, enum picture_role role, const bool *known,
                         const double *cents);

/* The readings of a string; `fret` is the one in hand, 0 for none. */
void picture_cents_read(struct picture *picture, int string, const struct cents_read *read,
                        int fret);
void picture_cents_end(struct picture *picture, int fret);

/*
 * A row of the history over time, in days and in the row's unit: bass as the main line, treble
 * beside it, a post at the pass `at`. Its ticks are the first and the last pass that it shows.
 * False where it has nothing to show.
 */
bool picture_trend(struct picture *ret_picture, const struct history *history, enum history_row row,
                   int at, const struct shop_units *units);

#endif
