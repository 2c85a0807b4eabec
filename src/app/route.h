/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_ROUTE_H
#define SILLET_APP_ROUTE_H

#include "model/record.h"

/*
 * The cells of the bench's readings board, in the order in which a tech measures: relief,
 * then nut gaps, then action, then saddle exposure, each from the bass string to the
 * treble, and behind them the station where the pass is done.
 */

enum board_row { ROW_RELIEF, ROW_GAP, ROW_ACTION, ROW_EXPOSURE, ROW_COUNT_ };

struct route_cell {
    struct reading_key key;
    enum board_row row;
    int string; /* the string it belongs to; for relief the lowest */
    int column; /* 0 is the leftmost: the bass string, as the tech faces the board */
};

enum { ROUTE_MAX = 1 + 2 * STRINGS_MAX + 2 };

struct route {
    struct route_cell cells[ROUTE_MAX];
    int count;
    int columns; /* at least 1 */
};

/* The cells of a pass for that many strings (at least 1 is laid out). */
void route_lay(struct route *route, int strings, int visit, int pass);

/* The field that a row's cells hold (the bass one for exposure). */
enum field_id route_row_field(enum board_row row);

/* The cell that holds a reading; -1 when none does. */
int route_find(const struct route *route, const struct reading_key *key);

/* The cell one row or column away, the nearest where the row is shorter; `at` itself at
 * an edge. at may be `count` (the pass's end). */
int route_move(const struct route *route, int at, int rows, int columns);

#endif
