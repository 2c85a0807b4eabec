/* SPDX-License-Identifier: MIT */
#include "terminal_inner.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/utf8.h"

static int on_property(VTermProp property, VTermValue *value, void *user)
{
    struct terminal *terminal = user;
    if (property == VTERM_PROP_CURSORVISIBLE) {
        terminal->cursor_visible = value->boolean != 0;
    } else if (property == VTERM_PROP_ALTSCREEN) {
        terminal->alternate = value->boolean != 0;
    }
    return 1;
}

static const VTermScreenCallbacks screen_callbacks = {.settermprop = on_property};

/* Sends the terminal's answers to the program's queries. */
static void on_answer(const char *bytes, size_t length, void *user)
{
    terminal_feed(user, bytes, length);
}

void terminal_screen_open(struct terminal *terminal)
{
    terminal->vterm = vterm_new(terminal->rows, terminal->columns);
    vterm_set_utf8(terminal->vterm, 1);
    vterm_output_set_callback(terminal->vterm, on_answer, terminal);
    terminal->screen = vterm_obtain_screen(terminal->vterm);
    vterm_screen_set_callbacks(terminal->screen, &screen_callbacks, terminal);
    vterm_screen_enable_altscreen(terminal->screen, 1);
    terminal->cursor_visible = true;
    vterm_screen_reset(terminal->screen, 1);
}

/* True after the last byte of ESC [ digits b. */
static bool ends_repeat(struct terminal *terminal, char byte)
{
    const int before = terminal->repeating;
    terminal->repeating = 0;
    if (byte == '\033') {
        terminal->repeating = 1;
    } else if ((before == 1 && byte == '[') || (before == 2 && byte >= '0' && byte <= '9')) {
        terminal->repeating = 2;
    }
    return before == 2 && byte == 'b';
}

/*
 * libvterm 0.1.4 takes the row for full when a repeat leaves one column free, and wraps the
 * next character. Moving the cursor clears that, so each repeat is followed by a move away and back
 * (curses never repeats into the last column).
 */
static void write_whole(struct terminal *terminal, const char *bytes, size_t length)
{
    static const char there_and_back[] = "\033[D\033[C";
    size_t from = 0;
    for (size_t i = 0; i < length; i++) {
        if (ends_repeat(terminal, bytes[i])) {
            vterm_input_write(terminal->vterm, bytes + from, i + 1 - from);
            vterm_input_write(terminal->vterm, there_and_back, sizeof there_and_back - 1);
            from = i + 1;
        }
    }
    vterm_input_write(terminal->vterm, bytes + from, length - from);
}

/* How many of the bytes are no beginning of a character that goes on behind them. */
static size_t whole_length(const char *bytes, size_t length)
{
    for (size_t back = 1; back < 4 && back <= length; back++) {
        const unsigned char byte = (unsigned char)bytes[length - back];

        if (byte >= 0xC0) {
            const size_t needed = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : 2;

            return back < needed ? length - back : length;
        }
        if (byte < 0x80) {
            break;
        }
    }
    return length;
}

/* A write of many bytes arrives in parts that may end in the middle of a character, which libvterm
 * 0.1.4 does not put together. */
void terminal_screen_write(struct terminal *terminal, const char *bytes, size_t length)
{
    for (; terminal->part_length > 0 && length > 0; bytes++, length--) {
        terminal->part[terminal->part_length++] = *bytes;
        if (whole_length(terminal->part, terminal->part_length) == terminal->part_length) {
            write_whole(terminal, terminal->part, terminal->part_length);
            terminal->part_length = 0;
        }
    }
    const size_t whole = whole_length(bytes, length);

    write_whole(terminal, bytes, whole);
    if (whole < length) {
        terminal->part_length = length - whole;
        memcpy(terminal->part, bytes + whole, terminal->part_length);
    }
}

static bool read_cell(const struct terminal *terminal, int row, int column,
                      VTermScreenCell *ret_cell)
{
    VTermPos place = {.row = row, .col = column};
    return row >= 0 && row < terminal->rows && column >= 0 && column < terminal->columns &&
           vterm_screen_get_cell(terminal->screen, place, ret_cell) != 0;
}

static size_t encode(const VTermScreenCell *cell, char *out)
{
    size_t length = 0;
    for (int i = 0; i < VTERM_MAX_CHARS_PER_CELL && cell->chars[i] != 0; i++) {
        length += utf8_encode(cell->chars[i], out + length);
    }
    return length;
}

const char *terminal_row(struct terminal *terminal, int row)
{
    size_t length = 0, end = 0;
    for (int column = 0; column < terminal->columns;) {
        VTermScreenCell cell;
        if (!read_cell(terminal, row, column, &cell) || length + 32 > sizeof terminal->row) {
            break;
        }
        if (cell.chars[0] == 0) {
            terminal->row[length++] = ' ';
        } else {
            length += encode(&cell, terminal->row + length);
            end = cell.chars[0] == ' ' ? end : length;
        }
        column += cell.width > 0 ? cell.width : 1;
    }
    terminal->row[end] = '\0';
    return terminal->row;
}

int terminal_find(struct terminal *terminal, const char *text, int *ret_column)
{
    for (int row = 0; row < terminal->rows; row++) {
        const char *line = terminal_row(terminal, row);
        const char *at = strstr(line, text);
        if (at == NULL) {
            continue;
        }
        if (ret_column != NULL) {
            terminal->row[at - line] = '\0';
            *ret_column = utf8_columns(terminal->row);
        }
        return row;
    }
    return -1;
}

static int colour_index(const VTermColor *colour)
{
    if (VTERM_COLOR_IS_DEFAULT_FG(colour) || VTERM_COLOR_IS_DEFAULT_BG(colour)) {
        return -1;
    }
    return VTERM_COLOR_IS_INDEXED(colour) ? colour->indexed.idx : -2;
}

struct terminal_cell terminal_cell(struct terminal *terminal, int row, int column)
{
    struct terminal_cell out = {.foreground = -1, .background = -1};
    VTermScreenCell cell;
    if (!read_cell(terminal, row, column, &cell)) {
        return out;
    }
    out.text[encode(&cell, out.text)] = '\0';
    out.width = cell.width;
    out.bold = cell.attrs.bold != 0;
    out.reverse = cell.attrs.reverse != 0;
    out.underline = cell.attrs.underline != 0;
    out.foreground = colour_index(&cell.fg);
    out.background = colour_index(&cell.bg);
    return out;
}

void terminal_cursor(const struct terminal *terminal, int *ret_row, int *ret_column,
                     bool *ret_visible)
{
    VTermPos place;
    vterm_state_get_cursorpos(vterm_obtain_state(terminal->vterm), &place);
    *ret_row = place.row;
    *ret_column = place.col;
    *ret_visible = terminal->cursor_visible;
}

bool terminal_on_alternate_screen(const struct terminal *terminal)
{
    return terminal->alternate;
}

void terminal_print(struct terminal *terminal)
{
    if (terminal->master < 0) {
        return;
    }
    int row, column;
    bool visible;
    terminal_cursor(terminal, &row, &column, &visible);
    print_error("--- %d x %d, TERM=%s, cursor %d,%d %s, %s\n", terminal->rows, terminal->columns,
                terminal->term, row, column, visible ? "shown" : "hidden",
                terminal->ended ? "ended" : "running");
    for (int i = 0; i < terminal->rows; i++) {
        print_error("%3d|%s\n", i, terminal_row(terminal, i));
    }
    print_error("---\n");
}
