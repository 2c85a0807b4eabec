/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PICTURE_PICTURES_H
#define SILLET_PICTURE_PICTURES_H

#include "picture/picture.h"
#include "model/derive/derive.h"

/* The drawings of screen and paper: the neck from the side, cents along the board. */

/*
 * Draws the neck from the side under a string, in mm: x from the nut to the last fret, y over the
 * chord. It has the crowns, the nut, the string as `derived` has it (if known), and `other`, the
 * same string at another time (NULL or unknown: none). False if the neck's curve is not known, or
 * the board has no such string.
 */
bool picture_side(struct picture *ret_picture, const struct derived *derived, int string,
                  const struct string_line *other);

/* Names the string's lines in it at their ends, marks `other` with an x here and there, and the
 * highest crown with an A: one that the rocker found high, else the top of a hump between the ends
 * of the straightedge. */
void picture_side_name(struct picture *picture, const struct derived *derived, int string,
                       const char *now, const char *other);

/* Marks in it what is measured at a fret: from the crown to the string, or to the chord. */
void picture_side_mark(struct picture *picture, const struct derived *derived, int string, int fret,
                       bool to_chord);

/* Draws cents along the board, with the band that is left alone. Begin it, add curves and readings,
 * then end it, which rounds the scale to whole cents and labels it. */
void picture_cents_begin(struct picture *ret_picture, int frets, double tolerance_cents);

/* Adds a curve by fret, with gaps where its cents are absent. False if all are absent. */
bool picture_cents_curve(struct picture *picture, enum picture_role role,
                         const struct maybe *cents);

/* Adds the readings of a string; `fret` is the one in hand, 0 for none. */
void picture_cents_read(struct picture *picture, int string, const struct cents_read *read,
                        int fret);
void picture_cents_end(struct picture *picture, int fret);

#endif
