/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHEET_SHEET_H
#define SILLET_SHEET_SHEET_H

#include <stdbool.h>
#include <stddef.h>

#include "words/frets_plan.h"
#include "picture/picture.h"
#include "base/status.h"
#include "model/reading/field.h"
#include "model/reading/record.h"

/*
 * The sheet that goes back to the customer with an instrument, as a list of blocks: the contents
 * in order, without any layout. sheet_text.h and sheet_page.h lay it out.
 *
 * All texts are valid UTF-8, one line each, and hold nothing that a terminal would act on.
 */

enum sheet_block_kind {
    SHEET_TITLE, /* `text` at the left, `aside` at the right */
    SHEET_HEADING,
    SHEET_PARAGRAPH,
    SHEET_ITEM,  /* one of a list */
    SHEET_SMALL, /* small print */
    SHEET_CUT,   /* small print over a line to cut along */
    SHEET_TABLE,
    SHEET_DRAWING,
};

enum sheet_align { SHEET_LEFT, SHEET_RIGHT, SHEET_CENTRE };
enum sheet_row { SHEET_ROW_PLAIN, SHEET_ROW_HEAD, SHEET_ROW_LAST };
enum { SHEET_COLUMNS_MAX = 10, SHEET_ROWS_MAX = 64 };

/* A cell over several columns has its text in the first of them, and is centred. */
struct sheet_cell {
    char *text; /* NULL: empty */
    int span;   /* 1 or more; 0: covered by the one before it */
};

struct sheet_table {
    bool pairs; /* two columns, name and value; several pairs may be set side by side */
    int columns, rows;
    enum sheet_align align[SHEET_COLUMNS_MAX];
    enum sheet_row row[SHEET_ROWS_MAX];
    struct sheet_cell *cells; /* row by row */
};

enum sheet_drawing { SHEET_SIDE_VIEW, SHEET_CENTS_CURVE, SHEET_HEADROOM_MAP };

struct sheet_block {
    enum sheet_block_kind kind;
    char *text, *aside;        /* of a drawing: its caption and its key */
    struct sheet_table *table; /* of SHEET_TABLE */
    enum sheet_drawing drawing;
};

struct sheet {
    struct sheet_block *blocks;
    size_t count, capacity;
    enum status status; /* the first failure; after it nothing is added */
    char *title;        /* of the document */
    char date[11];      /* of the visit, ISO 8601; "" if it has none */
    /* The data of the drawings: the neck under the lowest string, the cents of all
     * strings, the headroom of every note. */
    struct picture picture[SHEET_HEADROOM_MAP]; /* by drawing; the map has no picture */
    struct frets_plan frets;
    char label[STRINGS_MAX + 1][16]; /* "6 E2" */
};

void sheet_init(struct sheet *sheet);
void sheet_done(struct sheet *sheet);

/* All of these take any text: unsafe characters become U+FFFD, line breaks and tabs a
 * blank. A failure (out of memory) is kept in `status`. */
void sheet_name(struct sheet *sheet, const char *title); /* the document */
void sheet_add_title(struct sheet *sheet, const char *text, const char *aside);
void sheet_add_heading(struct sheet *sheet, const char *text);
void sheet_add_text(struct sheet *sheet, enum sheet_block_kind kind, const char *text);
void sheet_add_drawing(struct sheet *sheet, enum sheet_drawing drawing, const char *text,
                       const char *aside);

/* Begins a table for the rows that follow. `align` has one letter for each column:
 * l, r or c. */
void sheet_begin_table(struct sheet *sheet, const char *align);
void sheet_begin_pairs(struct sheet *sheet);
/* Begins a row of empty cells; past SHEET_ROWS_MAX it is dropped. */
void sheet_begin_row(struct sheet *sheet, enum sheet_row row);
/* Fills the next cell of that row. */
void sheet_add_cell(struct sheet *sheet, const char *text);
void sheet_add_span(struct sheet *sheet, int columns, const char *text);
/* Adds a row to a table of pairs, unless the text is NULL or empty. */
void sheet_add_pair(struct sheet *sheet, const char *name, const char *text);

/* The cell at a row and column of the table, both from 0. */
const struct sheet_cell *sheet_cell(const struct sheet_table *table, int row, int column);

#endif
