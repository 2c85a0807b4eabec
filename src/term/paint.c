/* SPDX-License-Identifier: MIT */
#include "term/paint.h"

#include <errno.h>
#include <poll.h>
#include <string.h>
#include <unistd.h>

#include "base/utf8.h"
#include "term/terminfo.h"

/* A change of a usual screen fits easily; one that does not goes out in parts. */
enum { BYTES_MAX = 1 << 16, CELL_BYTES = 4 * (1 + FRAME_MARKS), ORDER_BYTES = 64 };

/* So many cells that are right already are sent again rather than moved over. */
enum { BRIDGE_MAX = 4 };

enum { PLAIN = 0, UNKNOWN = -1 };

/* No character: of a cell of which it is not known what it shows. */
#define RUNE_UNKNOWN UINT32_MAX

static const struct cell blank = {.rune = ' ', .role = PLAIN};

static struct {
    struct cell shown[FRAME_ROWS_MAX][FRAME_COLUMNS_MAX];
    int rows, columns;
    int row, column; /* of the terminal's cursor; row UNKNOWN: it may be anywhere */
    int look;        /* that the next character gets */
    int cursor;      /* 1 shown, 0 hidden */
    bool known;      /* `shown` holds */
    struct terminfo_traits traits;
    struct paint_look looks[PAINT_LOOKS_MAX];
    char bytes[BYTES_MAX];
    size_t length;
} state;

/* --- sending --- */

/* Signal handlers may make this end: see signals_showing. */
static void send_bytes(void)
{
    size_t at = 0;

    while (at < state.length) {
        const ssize_t sent = write(STDOUT_FILENO, state.bytes + at, state.length - at);

        if (sent >= 0) {
            at += (size_t)sent;
        } else if (errno == EAGAIN) {
            poll(&(struct pollfd){.fd = STDOUT_FILENO, .events = POLLOUT}, 1, -1);
        } else if (errno != EINTR) {
            paint_forget(); /* most likely it is gone, which the next wait for a key finds out */
            break;
        }
    }
    state.length = 0;
}

static void add(const char *bytes, size_t length)
{
    if (state.length + length > BYTES_MAX) {
        send_bytes();
    }
    memcpy(state.bytes + state.length, bytes, length);
    state.length += length;
}

/* False if the terminal does not know the order. */
static bool add_order(enum terminfo_order order, int row, int column)
{
    char bytes[ORDER_BYTES];
    const size_t length = terminfo_order(order, row, column, bytes, sizeof bytes);

    add(bytes, length);
    return length > 0;
}

static void take_look(int look)
{
    const struct paint_look *bytes = &state.looks[look];

    if (state.look == look) {
        return;
    }
    if (state.look == PLAIN) {
        add(bytes->from_plain, (size_t)bytes->from_plain_length);
    } else {
        add(bytes->bytes, (size_t)bytes->length);
    }
    state.look = look;
}

/* --- cells --- */

static bool is_same(const struct cell *a, const struct cell *b)
{
    return a->rune == b->rune && a->role == b->role &&
           memcmp(a->marks, b->marks, sizeof a->marks) == 0;
}

static int width_of(const struct cell *cells, int column)
{
    return column + 1 < state.columns && cells[column + 1].rune == 0 ? 2 : 1;
}

/* The cursor is on the cell. Returns the column after it. */
static int put_cell(const struct cell *cells, int column)
{
    const struct cell *cell = &cells[column];
    const int width = width_of(cells, column);
    char bytes[CELL_BYTES];
    size_t length = utf8_encode(cell->rune, bytes);

    for (int i = 0; i < FRAME_MARKS && cell->marks[i] != 0; i++) {
        length += utf8_encode(cell->marks[i], bytes + length);
    }
    take_look(cell->role);
    add(bytes, length);
    state.column = column + width;
    /* Past the last column it may wait there, or be on the next row already. */
    if (state.column >= state.columns) {
        state.row = UNKNOWN;
    }
    return column + width;
}

/* Whether the cells up to a column are as quickly sent again as moved over. */
static bool can_bridge(const struct cell *cells, int column)
{
    if (column <= state.column || column - state.column > BRIDGE_MAX) {
        return false;
    }
    for (int at = state.column; at < column; at++) {
        if (cells[at].role != state.look || cells[at].rune < ' ' || cells[at].rune > '~' ||
            cells[at].marks[0] != 0) {
            return false;
        }
    }
    return true;
}

static void move_by_order(int row, int column)
{
    if (!state.traits.moves_in_any_look) {
        take_look(PLAIN);
    }
    if (row == state.row && column == 0) {
        add("\r", 1);
    } else if (!(row == state.row && add_order(TERMINFO_TO_COLUMN, row, column)) &&
               !(state.row != UNKNOWN && column == state.column &&
                 add_order(TERMINFO_TO_ROW, row, column))) {
        add_order(TERMINFO_TO_CELL, row, column);
    }
    state.row = row;
    state.column = column;
}

/* `cells` are those of the row, as they are to be; NULL if they are not at hand. */
static void move(int row, int column, const struct cell *cells)
{
    if (row == state.row && column == state.column) {
        return;
    }
    if (cells != NULL && row == state.row && can_bridge(cells, column)) {
        for (int at = state.column; at < column;) {
            at = put_cell(cells, at);
        }
        return;
    }
    move_by_order(row, column);
}

/* --- rows --- */

/* The column after the last cell that is not blank. */
static int end_of(const struct cell *cells)
{
    int end = state.columns;

    while (end > 0 && is_same(&cells[end - 1], &blank)) {
        end--;
    }
    return end;
}

static bool is_last_cell(int row, int column)
{
    return row == state.rows - 1 && column == state.columns - 1;
}

/* All from a column on is to be blank. True if one order did it. */
static bool clear_rest(int row, int column, const struct cell *cells)
{
    enum { WORTH_IT = 4 };

    if (end_of(state.shown[row]) - column < WORTH_IT) {
        return false;
    }
    move(row, column, cells);
    take_look(PLAIN);
    return add_order(TERMINFO_CLEAR_ROW, row, column);
}

void paint_row(int row, const struct cell *cells)
{
    struct cell *shown = state.shown[row];
    const int end = end_of(cells);

    for (int column = 0; column < state.columns;) {
        if (is_same(&cells[column], &shown[column])) {
            column++;
            continue;
        }
        if (column >= end && clear_rest(row, column, cells)) {
            break;
        }
        /* Of a wide character only the left half can be sent. */
        column -= column > 0 && cells[column].rune == 0;
        if (is_last_cell(row, column) && !state.traits.keeps_last_cell) {
            break;
        }
        move(row, column, cells);
        column = put_cell(cells, column);
    }
    memcpy(shown, cells, (size_t)state.columns * sizeof cells[0]);
}

/* --- the screen --- */

static void forget_cells(void)
{
    const bool cleared = add_order(TERMINFO_CLEAR_ALL, 0, 0);

    state.row = cleared ? 0 : UNKNOWN;
    state.column = 0;
    for (int row = 0; row < state.rows; row++) {
        for (int column = 0; column < state.columns; column++) {
            state.shown[row][column] = blank;
            if (!cleared) {
                state.shown[row][column].rune = RUNE_UNKNOWN;
            }
        }
    }
}

static void show_cursor(bool shown)
{
    if (state.cursor == (int)shown) {
        return;
    }
    add_order(shown ? TERMINFO_CURSOR_ON : TERMINFO_CURSOR_OFF, 0, 0);
    state.cursor = (int)shown;
}

void paint_open(const struct paint_look *looks, int count)
{
    memcpy(state.looks, looks, (size_t)count * sizeof looks[0]);
    state.traits = terminfo_traits();
    state.length = 0;
    paint_forget();
}

void paint_begin(int rows, int columns)
{
    if (state.known && rows == state.rows && columns == state.columns) {
        return;
    }
    state.rows = rows;
    state.columns = columns;
    state.look = UNKNOWN;
    take_look(PLAIN);
    forget_cells();
    state.known = true;
}

void paint_end(int cursor_row, int cursor_column)
{
    const bool shown = cursor_row >= 0 && cursor_column >= 0;

    if (shown) {
        move(cursor_row, cursor_column, NULL);
    } else if (!state.traits.hides_cursor) {
        move(0, 0, NULL); /* out of the way */
    }
    /* What a terminal adds to the screen when it gets larger looks like this. */
    take_look(PLAIN);
    show_cursor(shown);
    send_bytes();
}

void paint_forget(void)
{
    state.known = false;
    state.cursor = UNKNOWN;
}

void paint_leave(void)
{
    state.look = UNKNOWN;
    take_look(PLAIN);
    state.row = UNKNOWN;
    move(0, 0, NULL);
    add_order(TERMINFO_CURSOR_ON, 0, 0);
    send_bytes();
    paint_forget();
}
