/* SPDX-License-Identifier: MIT */
#include "draw/frame.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

static const struct cell blank_cell = {.rune = ' ', .role = ROLE_TEXT};

static bool inside(const struct frame *frame, int row, int column)
{
    return row >= 0 && row < frame->rows && column >= 0 && column < frame->columns;
}

static struct cell *cell_at(const struct frame *frame, int row, int column)
{
    return &frame->cells[(size_t)row * (size_t)frame->columns + (size_t)column];
}

enum status frame_init(struct frame *frame, int rows, int columns)
{
    if (rows < 1 || rows > FRAME_ROWS_MAX || columns < 1 || columns > FRAME_COLUMNS_MAX) {
        return STATUS_DOMAIN;
    }
    struct cell *cells = calloc((size_t)rows * (size_t)columns, sizeof *cells);
    if (cells == NULL) {
        return STATUS_NO_MEMORY;
    }
    *frame = (struct frame){.rows = rows, .columns = columns, .cells = cells};
    frame_clear(frame);
    return STATUS_OK;
}

void frame_done(struct frame *frame)
{
    free(frame->cells);
    *frame = (struct frame){.cursor_row = -1, .cursor_column = -1};
}

void frame_clear(struct frame *frame)
{
    size_t count = (size_t)frame->rows * (size_t)frame->columns;
    for (size_t i = 0; i < count; i++) {
        frame->cells[i] = blank_cell;
    }
    frame->cursor_row = -1;
    frame->cursor_column = -1;
    frame->overwritten = 0;
}

/* Half a wide character cannot be shown: when one half is overwritten, the other is blanked. */
static void part_wide(struct frame *frame, int row, int column)
{
    if (column <= 0 || column >= frame->columns) {
        return;
    }
    struct cell *right = cell_at(frame, row, column);
    if (right->rune == 0) {
        right->rune = ' ';
        struct cell *left = cell_at(frame, row, column - 1);
        left->rune = ' ';
        memset(left->marks, 0, sizeof left->marks);
    }
}

static bool may_be_covered(enum role role)
{
    return role == ROLE_RULE || role == ROLE_NOW || role == ROLE_AFTER || role == ROLE_FRET ||
           role == ROLE_MARK;
}

/* Stores a character of one or two columns that is known to fit. */
static void store(struct frame *frame, int row, int column, int columns, enum role role,
                  uint32_t rune)
{
    const struct cell *before = cell_at(frame, row, column);
    if (rune != ' ' && before->rune != ' ' && !may_be_covered((enum role)before->role)) {
        frame->overwritten++;
        frame->overwritten_row = row;
    }
    part_wide(frame, row, column);
    part_wide(frame, row, column + columns);
    *cell_at(frame, row, column) = (struct cell){.rune = rune, .role = (uint8_t)role};
    if (columns == 2) {
        *cell_at(frame, row, column + 1) = (struct cell){.role = (uint8_t)role};
    }
}

static void add_mark(struct cell *cell, uint32_t mark)
{
    for (int i = 0; i < FRAME_MARKS; i++) {
        if (cell->marks[i] == 0) {
            cell->marks[i] = mark;
            return;
        }
    }
}

/* The next character of a text, made safe to show, with its columns; returns its bytes. */
static size_t next_shown(const char *text, size_t length, uint32_t *ret_rune, int *ret_columns)
{
    bool valid = true;
    uint32_t rune = UTF8_REPLACEMENT;
    size_t bytes = utf8_decode(text, length, &rune, &valid);
    int columns = utf8_width(rune);
    if (!valid || utf8_unsafe(rune) || columns < 0) {
        rune = UTF8_REPLACEMENT;
        columns = 1;
    }
    *ret_rune = rune;
    *ret_columns = columns;
    return bytes;
}

int frame_put(struct frame *frame, int row, int column, int width, enum role role, const char *text)
{
    if (!inside(frame, row, column) || width <= 0) {
        return 0;
    }
    int room = width < frame->columns - column ? width : frame->columns - column;
    int used = 0;
    struct cell *last = NULL;
    size_t left = strlen(text);
    while (left > 0) {
        uint32_t rune;
        int columns;
        size_t bytes = next_shown(text, left, &rune, &columns);
        text += bytes;
        left -= bytes;
        if (columns == 0) {
            if (last != NULL) {
                add_mark(last, rune);
            }
            continue;
        }
        if (used + columns > room) {
            break;
        }
        store(frame, row, column + used, columns, role, rune);
        last = cell_at(frame, row, column + used);
        used += columns;
    }
    return used;
}

int frame_put_right(struct frame *frame, int row, int column, int width, enum role role,
                    const char *text)
{
    int columns = utf8_columns(text);
    int indent = columns < width ? width - columns : 0;
    return frame_put(frame, row, column + indent, width - indent, role, text);
}

void frame_put_rune(struct frame *frame, int row, int column, enum role role, uint32_t rune)
{
    if (!inside(frame, row, column)) {
        return;
    }
    bool showable = utf8_width(rune) == 1 && !utf8_unsafe(rune);
    store(frame, row, column, 1, role, showable ? rune : UTF8_REPLACEMENT);
}

void frame_set_role(struct frame *frame, int row, int column, int width, enum role role)
{
    if (row < 0 || row >= frame->rows) {
        return;
    }
    for (int i = 0; i < width && column + i < frame->columns; i++) {
        if (column + i >= 0) {
            cell_at(frame, row, column + i)->role = (uint8_t)role;
        }
    }
}

static bool cell_is_blank(const struct cell *cell)
{
    return cell->rune == ' ' && cell->marks[0] == 0;
}

/* A cell as UTF-8; returns the bytes, none for the right half of a wide character. */
static size_t encode_cell(const struct cell *cell, char out[4 * (1 + FRAME_MARKS)])
{
    if (cell->rune == 0) {
        return 0;
    }
    size_t length = utf8_encode(cell->rune, out);
    for (int i = 0; i < FRAME_MARKS && cell->marks[i] != 0; i++) {
        length += utf8_encode(cell->marks[i], out + length);
    }
    return length;
}

size_t frame_row_text(const struct frame *frame, int row, char *out, size_t size)
{
    size_t length = 0;
    if (size == 0) {
        return 0;
    }
    int end = row >= 0 && row < frame->rows ? frame->columns : 0;
    while (end > 0 && cell_is_blank(cell_at(frame, row, end - 1))) {
        end--;
    }
    for (int column = 0; column < end; column++) {
        char bytes[4 * (1 + FRAME_MARKS)];
        size_t count = encode_cell(cell_at(frame, row, column), bytes);
        if (length + count >= size) {
            break;
        }
        memcpy(out + length, bytes, count);
        length += count;
    }
    out[length] = '\0';
    return length;
}

size_t frame_row_roles(const struct frame *frame, int row, char *out, size_t size)
{
    static const char letters[] = {
#define ROLE_LETTER(name, letter) letter,
        ROLE_LIST(ROLE_LETTER)
#undef ROLE_LETTER
    };
    size_t length = 0;
    if (size == 0) {
        return 0;
    }
    int end = row >= 0 && row < frame->rows ? frame->columns : 0;
    while ((int)length < end && length + 1 < size) {
        uint8_t role = cell_at(frame, row, (int)length)->role;
        out[length++] = role < ROLE_COUNT_ ? letters[role] : '?';
    }
    out[length] = '\0';
    return length;
}
