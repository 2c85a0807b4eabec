/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_STRINGS_PITCH_H
#define SILLET_MODEL_STRINGS_PITCH_H

#include <stdbool.h>

#include "base/status.h"
#include "base/strbuf.h"

/*
 * Note names, their numbers and their pitch. A note is counted in semitones with A4 = 69,
 * so that C4 is 60 and E2 is 40. Octaves change at C (scientific pitch notation).
 */

enum {
    PITCH_A4 = 69,
    PITCH_LOWEST = 12,  /* C0 */
    PITCH_HIGHEST = 131 /* B9 */
};

/* Standard pitch of A4, Hz: ISO 16:1975. */
#define PITCH_A4_HZ 440.0

/*
 * Reads a note name: a letter A to G of either case, at most one of # b ♯ ♭, an octave
 * digit; blanks around it are allowed ("E2", "f#3", "Bb1", "B♭1"). STATUS_SYNTAX when it
 * is none, STATUS_RANGE when it is outside C0 to B9 (Cb0, B#9).
 */
enum status pitch_parse(const char *text, int *ret_semitone);

/* Appends the name in ASCII, "F#3", or with `flats` "Gb3". STATUS_RANGE outside C0 to B9. */
enum status pitch_spell(int semitone, bool flats, struct strbuf *out);

/* Appends a note name that lacks its octave, "eb", with the octave in which it lies nearest to a
 * semitone: "Eb2". STATUS_SYNTAX for any other text. */
enum status pitch_add_nearest(const char *text, int semitone, struct strbuf *out);

/* The accidental that a note name is written with: 1 for a sharp, -1 for a flat, 0 for none and
 * for a text that is no note. */
int pitch_accidental(const char *text);

/* Appends a note's name as it is written, in ASCII: "eb2" and "E♭2" are "Eb2". Fails as
 * pitch_parse does. */
enum status pitch_tidy(const char *text, struct strbuf *out);

/*
 * Frequency in Hz: a4_hz 2^((semitone - 69)/12), equal temperament. The semitone may have
 * a fraction (cents / 100). STATUS_DOMAIN unless a4_hz > 0 and the result is a positive,
 * finite number.
 */
enum status pitch_frequency(double semitone, double a4_hz, double *ret_hz);

#endif
