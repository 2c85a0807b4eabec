/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PICTURE_PICTURES_H
#define SILLET_PICTURE_PICTURES_H

#include "picture/picture.h"
#include "model/derive/derive.h"

/* The drawings: the neck from the side, cents along the board. */

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

/* A curve by fret, broken where its cents are absent. False where there is nothing of it. */
bool picture_cents_curve(struct picture *picture, enum picture_role role,
                         const struct maybe *cents);

/* The readings of a string; `fret` is the one in hand, 0 for none. */
void picture_cents_read(struct picture *picture, int string, const struct cents_read *read,
                        int fret);
void picture_cents_end(struct picture *picture, int fret);

#endif
