/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DRAW_FRAME_H
#define SILLET_DRAW_FRAME_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/status.h"

/*
 * A screen as a grid of cells: ui composes it and term shows it. Cells have roles, not
 * colours; term decides how a role looks on the terminal, and every role can
 * also be told apart without colour.
 */

/* What a cell is, not how it looks. The letters are for the role maps in tests. */
#define ROLE_LIST(X)                                                                               \
    X(ROLE_TEXT, ' ')    /* ordinary text */                                                       \
    X(ROLE_DIM, '.')     /* secondary: units, hints, values not in hand */                         \
    X(ROLE_TITLE, 'T')   /* the title strip */                                                     \
    X(ROLE_TAB, 't')     /* a leaf's name in the strip */                                          \
    X(ROLE_TAB_NOW, 'N') /* the current leaf's name */                                             \
    X(ROLE_LABEL, 'l')   /* row and column labels */                                               \
    X(ROLE_VALUE, 'v')   /* a reading or figure */                                                 \
    X(ROLE_ASSUMED, 'a') /* interpolated, assumed or default value */                              \
    X(ROLE_PREVIEW, 'p') /* what an entry not yet accepted would give */                           \
    X(ROLE_CELL, 'C')    /* the cell in hand */                                                    \
    X(ROLE_GOOD, 'g')    /* within tolerance */                                                    \
    X(ROLE_OFF, 'o')     /* off target: a move is due */                                           \
    X(ROLE_CAUTION, '!') /* a step that can hurt someone, a refusal */                             \
    X(ROLE_RULE, '-')    /* separating lines */                                                    \
    X(ROLE_NOW, 'n')     /* picture: the state now */                                              \
    X(ROLE_AFTER, 'f')   /* picture: the state after the moves */                                  \
    X(ROLE_FRET, '^')    /* picture: the crowns */                                                 \
    X(ROLE_MARK, 'm')    /* picture: where the reading in hand is taken */                         \
    X(ROLE_ENTRY, 'e')   /* the entry line's typed text */                                         \
    X(ROLE_KEY, 'k')     /* a key's name in a hint */

enum role {
#define ROLE_ENUM(name, letter) name,
    ROLE_LIST(ROLE_ENUM)
#undef ROLE_ENUM
        ROLE_COUNT_
};

enum { FRAME_MARKS = 2, FRAME_ROWS_MAX = 500, FRAME_COLUMNS_MAX = 1000 };

struct cell {
    uint32_t rune;               /* 0: the right half of a wide character */
    uint32_t marks[FRAME_MARKS]; /* combining marks, 0 where unused */
    uint8_t role;                /* enum role */
};

struct frame {
    int rows, columns;
    struct cell *cells;            /* rows * columns, row by row */
    int cursor_row, cursor_column; /* the one hardware cursor; -1, -1: hidden */
    /* The number of characters that overwrote a text (not a rule or a picture), and the row of the
     * last. For tests that no texts collide. */
    int overwritten, overwritten_row;
};

/* Makes a blank frame. STATUS_DOMAIN for a size under 1x1 or over the maxima. */
enum status frame_init(struct frame *frame, int rows, int columns);
void frame_done(struct frame *frame);

/* Blanks every cell and hides the cursor. */
void frame_clear(struct frame *frame);

/*
 * Writes UTF-8 text from (row, column) on, at most `width` columns and never past the
 * right edge; does nothing outside the grid. Unsafe and invalid characters become
 * U+FFFD (one column); a wide character that does not fit is dropped. Returns the
 * columns used.
 */
int frame_put(struct frame *frame, int row, int column, int width, enum role role,
              const char *text);

/* The same, flush right in [column, column + width). Text that is too long is clipped. */
int frame_put_right(struct frame *frame, int row, int column, int width, enum role role,
                    const char *text);

/* Writes one character, which must be one column wide. */
void frame_put_rune(struct frame *frame, int row, int column, enum role role, uint32_t rune);

/* Gives the cells [column, column + width) of a row a role, text untouched. */
void frame_set_role(struct frame *frame, int row, int column, int width, enum role role);

/* A row as UTF-8 text, trailing blanks dropped, NUL-terminated; returns its length, which
 * may be cut to fit `size`. For tests and for printing a frame. */
size_t frame_row_text(const struct frame *frame, int row, char *out, size_t size);

/* A row as role letters, one per column, trailing blanks kept. */
size_t frame_row_roles(const struct frame *frame, int row, char *out, size_t size);

#endif
