/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_ROUTE_H
#define SILLET_SESSION_ROUTE_H

#include <stdbool.h>

#include "model/reading/record.h"

/*
 * The cells of a leaf in the order in which a tech goes through them, and the place of each: rows
 * from the top, columns from the left (of strings, the bass string is leftmost, as the tech faces
 * the board). On the bench the last cell is followed by one more stop, where the pass is done.
 */

struct route_cell {
    struct reading_key key;
    int row, column;
    int string; /* the string that the leaf's figures are shown for */
    bool aside; /* off the route: Enter and Backspace skip it, arrows reach it */
};

enum { ROUTE_MAX = 640 };

struct route {
    struct route_cell cells[ROUTE_MAX];
    int count;
    int rows, columns;
    bool ends_pass; /* one more stop after the last cell: the pass is done */
};

void route_clear(struct route *route);

/* Adds a cell at the end; beyond ROUTE_MAX it is dropped. */
void route_add(struct route *route, struct reading_key key, int row, int column, int string);

/* Takes the cell added last off the route. */
void route_set_aside(struct route *route);

/* The next stop on the route, or with `by` -1 the one before; `at` itself if there is none. */
int route_step(const struct route *route, int at, int by);

/* The cell that holds a reading; -1 when none does. */
int route_find(const struct route *route, const struct reading_key *key);

/* The last stop: the pass's end, or the last cell; 0 in an empty route. */
int route_last(const struct route *route);

/* The cell one row or column away, or the nearest to it in a shorter row; `at` itself at an edge.
 * `at` and the result may be `count` (the pass's end). */
int route_move(const struct route *route, int at, int rows, int columns);

#endif
