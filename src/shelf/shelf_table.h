/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_TABLE_H
#define SILLET_SHELF_SHELF_TABLE_H

#include "model/survey/usual.h"
#include "shelf/shelf_list.h"

/* What all instruments that match what is typed say together, kind by kind, as a table: on the
 * screen, as text and as CSV. */

enum shelf_table_id {
    TABLE_USUAL, /* what the shop usually wants and leaves */
    TABLE_TURNS, /* what a quarter turn of the rod does */
    TABLE_PROOF, /* how right we were */
    TABLES_
};

enum { TABLE_COLUMNS_MAX = 8, TABLE_ROWS_MAX = 64, TABLE_CELL_MAX = 32 };

struct shelf_table {
    const char *title; /* the question */
    const char *note;  /* how to read it; "" for nothing to say */
    int columns, rows;
    char head[TABLE_COLUMNS_MAX][TABLE_CELL_MAX];
    char cell[TABLE_ROWS_MAX][TABLE_COLUMNS_MAX][TABLE_CELL_MAX];
};

/* False if out of memory. A table without rows means that nothing is known yet. */
bool shelf_table_make(const struct shelf_list *list, enum shelf_table_id id,
                      struct shelf_table *ret_table);

#endif
