/* SPDX-License-Identifier: MIT */
#include "term/paint.h"

#include <string.h>

#include "term/terminfo.h"

/* Cells to be sent that follow each other in a row and in one look; blanks go with any look that
 * does not mark them. */
struct run {
    short row, column, end;
    short look;       /* ANY: blanks alone */
    bool clears;      /* all behind it is to be blank */
    bool keeps_place; /* it is sent after those before it and before those after it */
};

/* More go out in parts. */
enum { RUNS_MAX = 4096, ANY = -1 };

/* No character: of a cell of which it is not known what it shows. */
#define RUNE_UNKNOWN UINT32_MAX

static const struct cell blank = {.rune = ' ', .role = BRUSH_PLAIN};

static struct {
    struct cell shown[FRAME_ROWS_MAX][FRAME_COLUMNS_MAX];
    int rows, columns;
    bool known; /* `shown` holds */
    struct terminfo_traits traits;
    struct run runs[RUNS_MAX];
    int run_count;
} state;

/* --- sending runs --- */

static void send_run(const struct run *run)
{
    const struct cell *cells = state.shown[run->row];

    brush_move(run->row, run->column, cells);
    for (int column = run->column; column < run->end;) {
        column = brush_put(cells, column);
    }
    if (run->clears) {
        brush_clear_row(run->row, run->end, cells);
    }
}

static int look_of(const struct run *run)
{
    return run->look == ANY ? BRUSH_PLAIN : run->look;
}

static void send_runs_in(int look)
{
    for (int i = 0; i < state.run_count; i++) {
        const struct run *run = &state.runs[i];

        if (!run->keeps_place && look_of(run) == look) {
            send_run(run);
        }
    }
}

/* Look by look, since a change of look takes more bytes than a move; `last` is the one in which the
 * cursor then is not far. A large change goes from top to bottom: a slow line shows it growing. */
static void send_runs(int last)
{
    enum { SORTED_MAX = 64 };
    bool wanted[BRUSH_LOOKS_MAX] = {false};

    for (int i = 0; i < state.run_count; i++) {
        struct run *run = &state.runs[i];

        run->keeps_place = run->keeps_place || state.run_count > SORTED_MAX;
        if (run->keeps_place) {
            send_run(run);
        } else {
            wanted[look_of(run)] = true;
        }
    }
    for (int look = 0; look < BRUSH_LOOKS_MAX; look++) {
        if (wanted[look] && look != last) {
            send_runs_in(look);
        }
    }
    send_runs_in(last);
    state.run_count = 0;
}

/* --- rows --- */

static bool is_same(const struct cell *a, const struct cell *b)
{
    return a->rune == b->rune && a->role == b->role &&
           memcmp(a->marks, b->marks, sizeof a->marks) == 0;
}

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

/* Of a wide character neither half may be sent over alone. */
static bool has_wide(const struct cell *cells)
{
    for (int column = 0; column < state.columns; column++) {
        if (cells[column].rune == 0) {
            return true;
        }
    }
    return false;
}

/* The run that a cell goes with: the last one, or a new one behind it. */
static struct run *run_for(int row, int column, const struct cell *cell, bool keeps_place)
{
    struct run *run = state.run_count > 0 ? &state.runs[state.run_count - 1] : NULL;
    const int look = brush_is_plain_blank(cell) ? ANY : cell->role;

    if (run != NULL && run->row == row && run->end == column && !run->clears) {
        if (look == run->look || (look == ANY && brush_blanks_in(run->look))) {
            return run;
        }
        if (run->look == ANY && brush_blanks_in(look)) {
            run->look = (short)look;
            return run;
        }
    }
    if (state.run_count == RUNS_MAX) {
        send_runs(BRUSH_PLAIN);
    }
    run = &state.runs[state.run_count++];
    *run = (struct run){(short)row, (short)column, (short)column, (short)look, false, keeps_place};
    return run;
}

static void plan_row(int row, const struct cell *cells, const struct cell *was)
{
    enum { WORTH_CLEARING = 4 };
    const int end = end_of(cells), end_before = end_of(was);
    const bool keeps_place = has_wide(cells) || has_wide(was);

    for (int column = 0; column < state.columns;) {
        if (is_same(&cells[column], &was[column])) {
            column++;
            continue;
        }
        /* Of a wide character only the left half can be sent. */
        column -= column > 0 && cells[column].rune == 0;
        if (is_last_cell(row, column) && !state.traits.keeps_last_cell) {
            break;
        }
        struct run *run = run_for(row, column, &cells[column], keeps_place);
        if (column >= end && state.traits.clears_rows && end_before - column >= WORTH_CLEARING) {
            run->clears = true;
            break;
        }
        column += brush_width(cells, column);
        run->end = (short)column;
    }
}

void paint_row(int row, const struct cell *cells)
{
    static struct cell was[FRAME_COLUMNS_MAX];
    const size_t size = (size_t)state.columns * sizeof cells[0];

    memcpy(was, state.shown[row], size);
    memcpy(state.shown[row], cells, size);
    plan_row(row, cells, was);
}

/* --- the screen --- */

static void forget_cells(void)
{
    const bool cleared = brush_clear_screen();

    for (int row = 0; row < state.rows; row++) {
        for (int column = 0; column < state.columns; column++) {
            state.shown[row][column] = blank;
            if (!cleared) {
                state.shown[row][column].rune = RUNE_UNKNOWN;
            }
        }
    }
}

void paint_open(const struct brush_look *looks, int count)
{
    brush_open(looks, count);
    state.traits = terminfo_traits();
    paint_forget();
}

bool paint_begin(int rows, int columns)
{
    if (state.known && rows == state.rows && columns == state.columns) {
        return true;
    }
    state.rows = rows;
    state.columns = columns;
    brush_begin(columns);
    forget_cells();
    state.known = true;
    return false;
}

void paint_end(int cursor_row, int cursor_column)
{
    const bool shown = cursor_row >= 0 && cursor_column >= 0;

    send_runs(shown ? state.shown[cursor_row][cursor_column].role : BRUSH_PLAIN);
    if (shown) {
        brush_move(cursor_row, cursor_column, state.shown[cursor_row]);
    } else if (!state.traits.hides_cursor) {
        brush_move(0, 0, state.shown[0]); /* out of the way */
    }
    brush_put_down(shown);
    if (!brush_send()) {
        paint_forget();
    }
}

void paint_forget(void)
{
    state.known = false;
}

void paint_leave(void)
{
    brush_begin(state.columns);
    brush_move(0, 0, state.shown[0]);
    brush_put_down(true);
    (void)brush_send();
    paint_forget();
}
