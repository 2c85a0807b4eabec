/* SPDX-License-Identifier: MIT */
#include "term/show.h"

#include <curses.h>
#include <wchar.h>

#include "base/utf8.h"

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
    attr_t attributes[ROLE_COUNT_];
    short pairs[ROLE_COUNT_];
    int cursor; /* the last argument of curs_set; -1 unknown */
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

static void choose_look(int role, bool has_dim)
{
    const struct look *look = &looks[role];
    attr_t attributes = state.colours > 0 ? look->attributes : look->mono;
    state.attributes[role] = has_dim ? attributes : without_dim(attributes);
    short colour = state.colours == 256 ? look->colour_256 : look->colour_8;
    state.pairs[role] = 0;
    if (state.colours > 0 && colour >= 0 && init_pair((short)(role + 1), colour, -1) == OK) {
        state.pairs[role] = (short)(role + 1);
    }
}

int show_open(bool utf8, bool colour_wanted)
{
    state.utf8 = utf8;
    state.cursor = -1;
    state.colours = usable_colours(colour_wanted);
    bool has_dim = (term_attrs() & A_DIM) != 0;
    for (int role = 0; role < ROLE_COUNT_; role++) {
        choose_look(role, has_dim);
    }
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

static void fill_cell(cchar_t *out, const struct cell *cell, uint32_t rune, int columns)
{
    wchar_t text[FRAME_MARKS + 2] = {0};
    int length = 0;
    text[length++] = (wchar_t)rune;
    for (int i = 0; i < FRAME_MARKS && cell->marks[i] != 0; i++) {
        if (columns > 0 && curses_agrees(cell->marks[i], 0)) {
            text[length++] = (wchar_t)cell->marks[i];
        }
    }
    int role = cell->role < ROLE_COUNT_ ? cell->role : ROLE_TEXT;
    setcchar(out, text, state.attributes[role], state.pairs[role], NULL);
}

/* Fills one row of curses cells, with a wide character as one cell; returns how many. */
static int fill_row(cchar_t *out, const struct cell *cells, int available, int columns)
{
    uint32_t replacement = state.utf8 ? UTF8_REPLACEMENT : '?';
    int count = 0;
    for (int column = 0; column < columns;) {
        const struct cell *cell = &cells[column];
        int wide = column + 1 < available && cells[column + 1].rune == 0 ? 2 : 1;
        if (cell->rune == 0 || column + wide > columns) {
            fill_cell(&out[count++], &(struct cell){.role = cell->role}, ' ', 1);
            column++;
        } else if (curses_agrees(cell->rune, wide)) {
            fill_cell(&out[count++], cell, cell->rune, wide);
            column += wide;
        } else {
            fill_cell(&out[count++], &(struct cell){.role = cell->role}, replacement, 1);
            if (wide == 2) {
                fill_cell(&out[count++], &(struct cell){.role = cell->role}, ' ', 1);
            }
            column += wide;
        }
    }
    return count;
}

static void place_cursor(const struct frame *frame, int rows, int columns)
{
    bool shown = frame->cursor_row >= 0 && frame->cursor_row < rows && frame->cursor_column >= 0 &&
                 frame->cursor_column < columns;
    if (state.cursor != (int)shown) {
        curs_set(shown ? 1 : 0);
        state.cursor = (int)shown;
    }
    if (shown) {
        move(frame->cursor_row, frame->cursor_column);
    }
}

static int smaller(int a, int b)
{
    return a < b ? a : b;
}

void show_frame(const struct frame *frame)
{
    static cchar_t row_cells[FRAME_COLUMNS_MAX];
    int rows = smaller(frame->rows, getmaxy(stdscr));
    int columns = smaller(frame->columns, getmaxx(stdscr));
    if (rows < getmaxy(stdscr) || columns < getmaxx(stdscr)) {
        erase(); /* clears what an older, larger frame left */
    }
    for (int row = 0; row < rows; row++) {
        const struct cell *cells = &frame->cells[(size_t)row * (size_t)frame->columns];
        int count = fill_row(row_cells, cells, frame->columns, columns);
        /* Unlike the add_wch family this neither wraps nor scrolls. */
        mvadd_wchnstr(row, 0, row_cells, count);
    }
    place_cursor(frame, rows, columns);
    refresh();
}

void show_repaint(void)
{
    state.cursor = -1;
    clearok(curscr, TRUE);
}
