/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LEAF_FRETS_H
#define SILLET_APP_LEAF_FRETS_H

/*
 * The frets leaf: a row for each string with the notes heard to buzz and played clean, the
 * bass string first; under them the rows of the frets, each fret in the column of its
 * number, and the fall-away.
 */
enum frets_row { FRETS_ROW_SPOT, FRETS_ROW_CROWN, FRETS_ROW_FALL_AWAY, FRETS_ROWS };

enum { FRETS_BUZZ_COLUMN = 0, FRETS_CLEAN_COLUMN = 1 };

#endif
