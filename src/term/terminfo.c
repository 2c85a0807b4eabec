/* SPDX-License-Identifier: MIT */
#include "term/terminfo.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

/* A file of its own: term.h defines words such as "columns" as macros. */
#include <curses.h>
#include <term.h>

/* A terminal too new for this machine's terminfo is nearly always compatible with this one, and
 * so is one whose TERM was lost. */
static const char fallback_name[] = "xterm-256color";

/* Static, because tputs passes no context to its callback. */
static struct {
    char *bytes;
    size_t size, length;
} collected;

/* Checked before anything is sent, so that a refusal leaves the screen alone. */
static enum status look_up(const char *name)
{
    int found = 0;
    if (setupterm(name, STDOUT_FILENO, &found) != OK) {
        return STATUS_NOT_FOUND;
    }
    enum status status = cursor_address == NULL ? STATUS_DOMAIN : STATUS_OK;
    del_curterm(cur_term);
    return status;
}

enum status terminfo_choose(const char **ret_name)
{
    const char *name = getenv("TERM");
    bool named = name != NULL && name[0] != '\0';
    enum status status = named ? look_up(name) : STATUS_NOT_FOUND;
    if (status == STATUS_NOT_FOUND) {
        name = fallback_name;
        status = look_up(name);
    }
    if (status == STATUS_OK) {
        *ret_name = name;
    }
    return status;
}

/* Bracketed paste. Few terminfo entries mention it. A terminal without it ignores the sequence, if
 * it knows private modes at all. */
static const char *paste_marks(bool on)
{
    const char *own = tigetstr(on ? "BE" : "BD");
    const bool has_own = own != NULL && own != (const char *)-1;
    const bool is_ansi = cursor_address[0] == '\033' && cursor_address[1] == '[';

    if (has_own || !is_ansi) {
        return has_own ? own : NULL;
    }
    return on ? "\033[?2004h" : "\033[?2004l";
}

void terminfo_mark_pastes(bool on)
{
    const char *bytes = paste_marks(on);

    if (bytes != NULL) {
        putp(bytes);
        fflush(stdout); /* putp goes to stdio; curses has its own buffer for the rest */
    }
}

static int collect_byte(int byte)
{
    if (collected.length < collected.size) {
        collected.bytes[collected.length++] = (char)byte;
    }
    return byte;
}

static void collect(char *out, size_t size)
{
    collected.bytes = out;
    collected.size = size;
    collected.length = 0;
}

static void collect_string(const char *bytes)
{
    if (bytes != NULL) {
        tputs(bytes, 1, collect_byte);
    }
}

/* Whether it spells moves as most terminals do (ECMA-48, 8.3): doing that here is much quicker than
 * to have terminfo do it. */
static struct {
    bool cell, column, row;
} spelled;

static bool is_spelled(const char *order, const char *wanted)
{
    return order != NULL && strcmp(tiparm(order, 11, 22), wanted) == 0;
}

static void collect_number(int number)
{
    if (number >= 10) {
        collect_number(number / 10);
    }
    collect_byte('0' + number % 10);
}

static void collect_move(const int *numbers, int count, char end)
{
    collect_byte('\033');
    for (int i = 0; i < count; i++) {
        collect_byte(i == 0 ? '[' : ';');
        collect_number(numbers[i] + 1);
    }
    collect_byte(end);
}

static void collect_to_cell(int row, int column)
{
    if (spelled.cell) {
        collect_move((const int[]){row, column}, 2, 'H');
    } else {
        collect_string(tiparm(cursor_address, row, column));
    }
}

/* To a column of the same row, or a row in the same column. */
static void collect_along(bool as_usual, const char *order, int to, char end)
{
    if (as_usual) {
        collect_move(&to, 1, end);
    } else {
        collect_string(order != NULL ? tiparm(order, to) : NULL);
    }
}

size_t terminfo_order(enum terminfo_order order, int row, int column, char *out, size_t size)
{
    collect(out, size);
    switch (order) {
    case TERMINFO_TO_CELL:
        collect_to_cell(row, column);
        break;
    case TERMINFO_TO_COLUMN:
        collect_along(spelled.column, column_address, column, 'G');
        break;
    case TERMINFO_TO_ROW:
        collect_along(spelled.row, row_address, row, 'd');
        break;
    case TERMINFO_CLEAR_ALL:
        collect_string(clear_screen);
        break;
    case TERMINFO_CLEAR_ROW:
        collect_string(clr_eol);
        break;
    case TERMINFO_CURSOR_ON:
        collect_string(cursor_normal);
        break;
    case TERMINFO_CURSOR_OFF:
        collect_string(cursor_invisible);
        break;
    }
    return collected.length;
}

enum { PARTS_MAX = 6, PART_BYTES = 64 };

/* The numbers N of a sequence ESC [ N m (ECMA-48, 8.3.117), whatever padding or change of the
 * character set is around it; NULL if it is anything else. No character set but the first is ever
 * used here. */
static const char *rendition(const char *bytes, size_t *ret_length)
{
    const char *numbers = bytes != NULL ? strstr(bytes, "\033[") : NULL;

    if (numbers == NULL) {
        return NULL;
    }
    numbers += 2;
    *ret_length = strspn(numbers, "0123456789;");
    return numbers[*ret_length] == 'm' ? numbers : NULL;
}

/* On most terminals one sequence can say it all. */
static bool collect_rendition(char parts[PARTS_MAX][PART_BYTES], int count, bool from_plain)
{
    size_t length;

    for (int i = 0; i < count; i++) {
        if (rendition(parts[i], &length) == NULL) {
            return false;
        }
    }
    if (rendition(exit_attribute_mode, &length) == NULL) {
        return false;
    }
    collect_string("\033[");
    collect_string(from_plain || count == 0 ? "" : "0;");
    for (int i = 0; i < count; i++) {
        const char *numbers = rendition(parts[i], &length);

        for (size_t k = 0; k < length; k++) {
            collect_byte(numbers[k]);
        }
        collect_byte(i + 1 < count ? ';' : 'm');
    }
    if (count == 0) {
        collect_byte('m');
    }
    return true;
}

static void add_part(char parts[PARTS_MAX][PART_BYTES], int *count, bool wanted, const char *bytes)
{
    if (wanted && bytes != NULL && strlen(bytes) < PART_BYTES) {
        strcpy(parts[(*count)++], bytes);
    }
}

unsigned long terminfo_attributes(unsigned long attributes, int colour)
{
    enum { UNDERLINE = 2, REVERSE = 4, DIM = 16, BOLD = 32 };
    const int lost = colour >= 0 && no_color_video > 0 ? no_color_video : 0;

    /* Where each change takes a cell of the screen, nothing would stay in its column. */
    if (magic_cookie_glitch > 0) {
        return 0;
    }
    /* The terminal may show the others as colours itself. */
    return attributes & ~((lost & UNDERLINE ? A_UNDERLINE : 0) | (lost & REVERSE ? A_REVERSE : 0) |
                          (lost & DIM ? A_DIM : 0) | (lost & BOLD ? A_BOLD : 0));
}

size_t terminfo_look(unsigned long attributes, int colour, bool from_plain, char *out, size_t size)
{
    char parts[PARTS_MAX][PART_BYTES];
    int count = 0;

    attributes = terminfo_attributes(attributes, colour);
    add_part(parts, &count, attributes & A_BOLD, enter_bold_mode);
    add_part(parts, &count, attributes & A_DIM, enter_dim_mode);
    add_part(parts, &count, attributes & A_UNDERLINE, enter_underline_mode);
    add_part(parts, &count, attributes & A_REVERSE, enter_reverse_mode);
    if (colour >= 0 && set_a_foreground != NULL) {
        add_part(parts, &count, true, tiparm(set_a_foreground, colour));
    }
    collect(out, size);
    if (collect_rendition(parts, count, from_plain)) {
        return collected.length;
    }
    if (!from_plain) {
        collect_string(exit_attribute_mode);
        collect_string(orig_pair);
    }
    for (int i = 0; i < count; i++) {
        collect_string(parts[i]);
    }
    return collected.length;
}

static bool is_string(const char *bytes, const char *wanted)
{
    return bytes != NULL && strcmp(bytes, wanted) == 0;
}

struct terminfo_traits terminfo_traits(void)
{
    struct termios modes = {.c_oflag = OPOST};

    (void)tcgetattr(STDOUT_FILENO, &modes);
    spelled.cell = is_spelled(cursor_address, "\033[12;23H");
    spelled.column = is_spelled(column_address, "\033[12G");
    spelled.row = is_spelled(row_address, "\033[12d");
    return (struct terminfo_traits){
        .moves_in_any_look = move_standout_mode,
        .hides_cursor = cursor_invisible != NULL,
        .keeps_last_cell = !auto_right_margin || eat_newline_glitch,
        .clears_rows = clr_eol != NULL,
        .feeds_lines = is_string(cursor_down, "\n") && (modes.c_oflag & OPOST) == 0,
        .steps_back = is_string(cursor_left, "\b"),
    };
}

size_t terminfo_rescue(char *out, size_t size)
{
    const char *const last = exit_ca_mode != NULL ? exit_ca_mode : clear_screen;
    const char *const wanted[] = {exit_attribute_mode, orig_pair,          cursor_normal,
                                  keypad_local,        paste_marks(false), last};

    collect(out, size);
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        collect_string(wanted[i]);
    }
    return collected.length;
}
