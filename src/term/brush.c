/* SPDX-License-Identifier: MIT */
#include "term/brush.h"

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

/* Of a look, a row and a cursor of which nothing is known. */
enum { NOTHING = -1, NOWHERE = -1 };

static struct {
    int columns;
    int row, column; /* of the terminal's cursor; row NOWHERE: it may be anywhere */
    int look;        /* that the next character gets */
    int cursor;      /* 1 shown, 0 hidden, or NOTHING */
    struct terminfo_traits traits;
    struct brush_look looks[BRUSH_LOOKS_MAX];
    char bytes[BYTES_MAX];
    size_t length;
    bool failed; /* something was not sent */
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
            state.failed = true; /* most likely it is gone: the next wait for a key finds out */
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

/* Whether the one look can be made the other by what is added to the plain one. */
static bool adds_up(int from, int to)
{
    const struct brush_look *less = &state.looks[from], *more = &state.looks[to];

    return (less->attributes & ~more->attributes) == 0 && (more->coloured || !less->coloured);
}

static void take_look(int look)
{
    const struct brush_look *bytes = &state.looks[look];

    if (state.look == look) {
        return;
    }
    if (state.look != NOTHING && adds_up(state.look, look)) {
        add(bytes->from_plain, (size_t)bytes->from_plain_length);
    } else {
        add(bytes->bytes, (size_t)bytes->length);
    }
    state.look = look;
}

/* --- cells --- */

bool brush_is_plain_blank(const struct cell *cell)
{
    return cell->rune == ' ' && cell->role == BRUSH_PLAIN && cell->marks[0] == 0;
}

bool brush_blanks_in(int look)
{
    return look != NOTHING && !state.looks[look].marks_blanks;
}

int brush_width(const struct cell *cells, int column)
{
    return column + 1 < state.columns && cells[column + 1].rune == 0 ? 2 : 1;
}

int brush_put(const struct cell *cells, int column)
{
    const struct cell *cell = &cells[column];
    const int width = brush_width(cells, column);
    char bytes[CELL_BYTES];
    size_t length = utf8_encode(cell->rune, bytes);

    for (int i = 0; i < FRAME_MARKS && cell->marks[i] != 0; i++) {
        length += utf8_encode(cell->marks[i], bytes + length);
    }
    if (!brush_is_plain_blank(cell) || !brush_blanks_in(state.look)) {
        take_look(cell->role);
    }
    add(bytes, length);
    state.column = column + width;
    /* Past the last column it may wait there, or be on the next row already. */
    if (state.column >= state.columns) {
        state.row = NOWHERE;
    }
    return column + width;
}

/* --- moving --- */

/* Whether a cell that the terminal shows already is as quickly sent again as moved over. */
static bool can_bridge_cell(const struct cell *cell)
{
    if (brush_is_plain_blank(cell)) {
        return brush_blanks_in(state.look);
    }
    return cell->role == state.look && cell->rune >= ' ' && cell->rune <= '~' &&
           cell->marks[0] == 0;
}

static bool can_bridge(const struct cell *cells, int column)
{
    if (column <= state.column || column - state.column > BRIDGE_MAX) {
        return false;
    }
    for (int at = state.column; at < column; at++) {
        if (!can_bridge_cell(&cells[at])) {
            return false;
        }
    }
    return true;
}

/* A few rows down and a few columns back, a byte each. False if it would take too many. */
static bool step(int row, int column)
{
    enum { STEPS_MAX = 4 };
    const int down = row - state.row;
    const int back = column == 0 && state.column > 0 ? 1 : state.column - column;
    const bool can = (down == 0 || state.traits.feeds_lines) &&
                     (column == 0 || back == 0 || state.traits.steps_back);

    if (state.row == NOWHERE || down < 0 || back < 0 || down + back > STEPS_MAX || !can) {
        return false;
    }
    for (int i = 0; i < down; i++) {
        add("\n", 1);
    }
    for (int i = 0; i < back; i++) {
        add(column == 0 ? "\r" : "\b", 1);
    }
    return true;
}

static void move_by_order(int row, int column)
{
    if (!state.traits.moves_in_any_look) {
        take_look(BRUSH_PLAIN);
    }
    if (!step(row, column) && !(row == state.row && add_order(TERMINFO_TO_COLUMN, row, column)) &&
        !(state.row != NOWHERE && column == state.column &&
          add_order(TERMINFO_TO_ROW, row, column))) {
        add_order(TERMINFO_TO_CELL, row, column);
    }
    state.row = row;
    state.column = column;
}

void brush_move(int row, int column, const struct cell *cells)
{
    if (row == state.row && column == state.column) {
        return;
    }
    if (row == state.row && can_bridge(cells, column)) {
        for (int at = state.column; at < column;) {
            at = brush_put(cells, at);
        }
        return;
    }
    move_by_order(row, column);
}

/* --- the rest of the screen --- */

void brush_open(const struct brush_look *looks, int count)
{
    memcpy(state.looks, looks, (size_t)count * sizeof looks[0]);
    state.traits = terminfo_traits();
    state.length = 0;
    state.cursor = NOTHING;
}

void brush_begin(int columns)
{
    state.columns = columns;
    state.row = NOWHERE;
    state.look = state.cursor = NOTHING;
    take_look(BRUSH_PLAIN);
}

bool brush_clear_screen(void)
{
    const bool cleared = add_order(TERMINFO_CLEAR_ALL, 0, 0);

    if (cleared) {
        state.row = state.column = 0;
    }
    return cleared;
}

void brush_clear_row(int row, int column, const struct cell *cells)
{
    brush_move(row, column, cells);
    if (!brush_blanks_in(state.look)) {
        take_look(BRUSH_PLAIN);
    }
    add_order(TERMINFO_CLEAR_ROW, row, column);
}

void brush_put_down(bool cursor_shown)
{
    /* What a terminal adds to the screen when it gets larger looks like this. */
    take_look(BRUSH_PLAIN);
    if (state.cursor != (int)cursor_shown) {
        add_order(cursor_shown ? TERMINFO_CURSOR_ON : TERMINFO_CURSOR_OFF, 0, 0);
        state.cursor = (int)cursor_shown;
    }
}

bool brush_send(void)
{
    send_bytes();
    const bool sent = !state.failed;
    state.failed = false;
    return sent;
}
