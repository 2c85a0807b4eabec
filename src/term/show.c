/* SPDX-License-Identifier: MIT */
#include "term/show.h"

#include <curses.h>
#include <string.h>
#include <wchar.h>

#include "base/least.h"
#include "base/utf8.h"
#include "term/paint.h"
#include "term/terminfo.h"

/* How a role looks: its attributes, and its colours on terminals of 8 and 256 colours. */
struct look {
    attr_t mono;
    attr_t attributes; /* with or without colour */
    short colour_8;    /* -1: the terminal's own */
    short colour_256;
};

/*
 * Roles that must be told apart differ in attributes as well as in colour, except where the
 * Linux console cannot combine the two: there underline and dim give way to colour.
 * The 256-colour values have about the same contrast (near 4.5:1) on a black and on a white
 * background, since the program cannot ask which it is; common practice (WCAG 2.1, 1.4.3). They
 * are from the usual 6x6x6 cube.
 */
static const struct look looks[ROLE_COUNT_] = {
    [ROLE_TEXT] = {A_NORMAL, A_NORMAL, -1, -1},
    [ROLE_DIM] = {A_DIM, A_DIM, -1, 243},
    [ROLE_TITLE] = {A_BOLD, A_BOLD, -1, -1},
    [ROLE_TAB] = {A_NORMAL, A_NORMAL, -1, -1},
    [ROLE_TAB_NOW] = {A_BOLD | A_REVERSE, A_BOLD | A_REVERSE, -1, -1},
    [ROLE_LABEL] = {A_NORMAL, A_NORMAL, COLOR_CYAN, 30},
    [ROLE_VALUE] = {A_NORMAL, A_NORMAL, -1, -1},
    [ROLE_ASSUMED] = {A_UNDERLINE, A_UNDERLINE, COLOR_MAGENTA, 97},
    [ROLE_PREVIEW] = {A_UNDERLINE | A_DIM, A_UNDERLINE, COLOR_CYAN, 27},
    [ROLE_CELL] = {A_REVERSE, A_REVERSE, -1, -1},
    [ROLE_GOOD] = {A_NORMAL, A_NORMAL, COLOR_GREEN, 28},
    [ROLE_OFF] = {A_BOLD, A_BOLD, COLOR_MAGENTA, 130},
    [ROLE_CAUTION] = {A_BOLD | A_REVERSE, A_BOLD | A_REVERSE, COLOR_RED, 160},
    [ROLE_RULE] = {A_DIM, A_DIM, -1, 243},
    [ROLE_NOW] = {A_BOLD, A_BOLD, -1, -1},
    [ROLE_AFTER] = {A_DIM, A_NORMAL, COLOR_GREEN, 28},
    [ROLE_FRET] = {A_NORMAL, A_NORMAL, COLOR_CYAN, 30},
    [ROLE_MARK] = {A_REVERSE, A_BOLD, COLOR_RED, 160},
    [ROLE_ENTRY] = {A_BOLD | A_UNDERLINE, A_BOLD | A_UNDERLINE, -1, -1},
    [ROLE_KEY] = {A_BOLD, A_BOLD, COLOR_CYAN, 30},
};

static struct {
    bool utf8;
    int colours;
    unsigned char look[ROLE_COUNT_]; /* the role's number among the looks that differ */
    bool marks_blanks[ROLE_COUNT_];
    struct cell given[FRAME_ROWS_MAX][FRAME_COLUMNS_MAX]; /* the frame's, as given last */
} state;

static int usable_colours(bool wanted)
{
    if (!wanted || !has_colors() || start_color() == ERR || use_default_colors() == ERR) {
        return 0;
    }
    if (COLORS < 8 || COLOR_PAIRS <= ROLE_COUNT_) {
        return 0;
    }
    return COLORS >= 256 ? 256 : 8;
}

/* On a terminal without dim, a preview would look like an assumed value. */
static attr_t without_dim(attr_t attributes)
{
    attr_t rest = attributes & ~(attr_t)A_DIM;
    return attributes == (A_UNDERLINE | A_DIM) ? rest | A_BOLD : rest;
}

static struct brush_look spell_look(int role, bool has_dim)
{
    const struct look *look = &looks[role];
    const attr_t wanted = state.colours > 0 ? look->attributes : look->mono;
    const attr_t attributes = has_dim ? wanted : without_dim(wanted);
    const short colour = state.colours == 256 ? look->colour_256 : look->colour_8;
    const int shown = state.colours > 0 ? colour : -1;
    struct brush_look bytes = {
        .attributes = terminfo_attributes(attributes, shown),
        .coloured = shown >= 0,
        .marks_blanks = (attributes & (A_UNDERLINE | A_REVERSE)) != 0,
    };

    bytes.length = (int)terminfo_look(attributes, shown, false, bytes.bytes, sizeof bytes.bytes);
    bytes.from_plain_length =
        (int)terminfo_look(attributes, shown, true, bytes.from_plain, sizeof bytes.from_plain);
    return bytes;
}

static bool is_same_look(const struct brush_look *a, const struct brush_look *b)
{
    return a->length == b->length && memcmp(a->bytes, b->bytes, (size_t)a->length) == 0;
}

/* Roles that look the same need nothing sent between them. The first, of text, is the plain one. */
static void choose_looks(void)
{
    const bool has_dim = (term_attrs() & A_DIM) != 0;
    struct brush_look differing[ROLE_COUNT_];
    int count = 0;

    for (int role = 0; role < ROLE_COUNT_; role++) {
        const struct brush_look bytes = spell_look(role, has_dim);
        int at = 0;

        while (at < count && !is_same_look(&differing[at], &bytes)) {
            at++;
        }
        if (at == count) {
            differing[count++] = bytes;
        }
        state.look[role] = (unsigned char)at;
        state.marks_blanks[role] = bytes.marks_blanks;
    }
    paint_open(differing, count);
}

int show_open(bool utf8, bool colour_wanted)
{
    state.utf8 = utf8;
    state.colours = usable_colours(colour_wanted);
    choose_looks();
    return state.colours;
}

/* Curses must agree on the columns of a character, or the rest of the row would shift. */
static bool curses_agrees(uint32_t rune, int columns)
{
    if (rune < 0x80) {
        return rune >= 0x20 && rune < 0x7F && columns == 1;
    }
    return state.utf8 && wcwidth((wchar_t)rune) == columns;
}

static unsigned char look_of(const struct cell *cell, uint32_t rune)
{
    const enum role role = cell->role < ROLE_COUNT_ ? cell->role : ROLE_TEXT;

    return rune == ' ' && !state.marks_blanks[role] ? state.look[ROLE_TEXT] : state.look[role];
}

static struct cell plain_cell(const struct cell *cell, uint32_t rune)
{
    return (struct cell){.rune = rune, .role = look_of(cell, rune)};
}

/* With those of its marks that the terminal shows in the same column. */
static struct cell whole_cell(const struct cell *cell)
{
    struct cell out = plain_cell(cell, cell->rune);
    int marks = 0;

    for (int i = 0; i < FRAME_MARKS && cell->marks[i] != 0; i++) {
        if (curses_agrees(cell->marks[i], 0)) {
            out.marks[marks++] = cell->marks[i];
        }
    }
    return out;
}

/* One character, of one column or two, as the terminal can show it. */
static void fill_character(struct cell *out, const struct cell *cell, int wide)
{
    const bool agreed = curses_agrees(cell->rune, wide);
    const uint32_t replacement = state.utf8 ? UTF8_REPLACEMENT : '?';

    out[0] = agreed ? whole_cell(cell) : plain_cell(cell, replacement);
    if (wide == 2) {
        out[1] = plain_cell(cell, agreed ? 0 : ' ');
    }
}

/* A row as wide as the screen, from one that may be wider or not as wide. */
static void fill_row(struct cell *out, const struct cell *cells, int available, int columns)
{
    const int end = least_of(available, columns);

    for (int column = 0; column < end;) {
        const struct cell *cell = &cells[column];
        const int wide = column + 1 < available && cells[column + 1].rune == 0 ? 2 : 1;

        if (cell->rune == 0 || column + wide > columns) {
            out[column++] = plain_cell(cell, ' ');
            continue;
        }
        fill_character(&out[column], cell, wide);
        column += wide;
    }
    for (int column = end; column < columns; column++) {
        out[column] = (struct cell){.rune = ' ', .role = state.look[ROLE_TEXT]};
    }
}

/* Whether the row is as it was given the last time; remembers it. */
static bool is_as_given(int row, const struct cell *cells, int count)
{
    const size_t size = (size_t)count * sizeof cells[0];
    const bool same = memcmp(state.given[row], cells, size) == 0;

    if (!same) {
        memcpy(state.given[row], cells, size);
    }
    return same;
}

static void show_row(int row, const struct frame *frame, int columns, bool shown)
{
    static struct cell out[FRAME_COLUMNS_MAX];
    const struct cell *cells =
        &frame->cells[row < frame->rows ? (size_t)row * (size_t)frame->columns : 0];
    const int given = row < frame->rows ? frame->columns : 0;

    if (!is_as_given(row, cells, given) || !shown) {
        fill_row(out, cells, given, columns);
        paint_row(row, out);
    }
}

void show_frame(const struct frame *frame)
{
    static int frame_rows, frame_columns;
    const int rows = least_of(getmaxy(stdscr), FRAME_ROWS_MAX);
    const int columns = least_of(getmaxx(stdscr), FRAME_COLUMNS_MAX);
    const bool has_cursor = frame->cursor_row >= 0 && frame->cursor_row < rows &&
                            frame->cursor_column >= 0 && frame->cursor_column < columns;
    const bool same_size = frame->rows == frame_rows && frame->columns == frame_columns;
    const bool shown = paint_begin(rows, columns) && same_size;

    frame_rows = frame->rows;
    frame_columns = frame->columns;
    for (int row = 0; row < rows; row++) {
        show_row(row, frame, columns, shown);
    }
    paint_end(has_cursor ? frame->cursor_row : -1, has_cursor ? frame->cursor_column : -1);
}

void show_repaint(void)
{
    paint_forget();
}

void show_leave(void)
{
    paint_leave();
}
