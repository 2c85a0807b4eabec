/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LEAF_PITCH_H
#define SILLET_APP_LEAF_PITCH_H

/* The columns of the pitch leaf: the setback, then the cents by fret, each in the column of
 * its number. Rows: strings, the bass string first. */
enum { PITCH_SETBACK_COLUMN = 0, PITCH_OCTAVE_FRET = 12 };

#endif
