/* SPDX-License-Identifier: MIT */
#include "sheet/sheet.h"

#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "base/utf8.h"

/* U+FFFD takes three bytes and may replace one. */
enum { GROWTH = 3 };

static const char *const alignments = "lrc";

static void keep_failure(struct sheet *sheet, enum status status)
{
    if (sheet->status == STATUS_OK)
        sheet->status = status;
}

/* Writes one character of a text that may hold anything; returns the bytes written. */
static size_t put_harmless(char *out, uint32_t rune)
{
    if (rune == '\n' || rune == '\t' || rune == '\r')
        rune = ' ';
    return utf8_encode(utf8_unsafe(rune) ? UTF8_REPLACEMENT : rune, out);
}

/* A copy that is safe to show; NULL for an empty text, or out of memory. */
static char *keep_text(struct sheet *sheet, const char *text)
{
    size_t left = text ? strlen(text) : 0, length = 0;

    if (left == 0 || sheet->status != STATUS_OK)
        return NULL;
    char *kept = malloc(GROWTH * left + 1);
    if (!kept) {
        keep_failure(sheet, STATUS_NO_MEMORY);
        return NULL;
    }
    while (left > 0) {
        uint32_t rune;
        char bytes[4];
        const size_t taken = utf8_decode(text, left, &rune, NULL);
        const size_t given = put_harmless(bytes, rune);

        memcpy(kept + length, bytes, given);
        length += given;
        text += taken;
        left -= taken;
    }
    kept[length] = '\0';
    return kept;
}

void sheet_init(struct sheet *sheet)
{
    *sheet = (struct sheet){.status = STATUS_OK};
}

static void free_table(struct sheet_table *table)
{
    if (!table)
        return;
    for (int i = 0; i < table->rows * table->columns; i++)
        free(table->cells[i].text);
    free(table->cells);
    free(table);
}

void sheet_done(struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->count; i++) {
        free(sheet->blocks[i].text);
        free(sheet->blocks[i].aside);
        free_table(sheet->blocks[i].table);
    }
    free(sheet->blocks);
    free(sheet->title);
    sheet_init(sheet);
}

static struct sheet_block *add_block(struct sheet *sheet, enum sheet_block_kind kind)
{
    if (sheet->status != STATUS_OK)
        return NULL;
    struct sheet_block *blocks =
        array_grow(sheet->blocks, sheet->count, &sheet->capacity, sizeof *blocks);
    if (!blocks) {
        keep_failure(sheet, STATUS_NO_MEMORY);
        return NULL;
    }
    sheet->blocks = blocks;
    struct sheet_block *block = &sheet->blocks[sheet->count++];
    *block = (struct sheet_block){.kind = kind};
    return block;
}

static void add_texts(struct sheet *sheet, enum sheet_block_kind kind, const char *text,
                      const char *aside)
{
    struct sheet_block *block = add_block(sheet, kind);

    if (!block)
        return;
    block->text = keep_text(sheet, text);
    block->aside = keep_text(sheet, aside);
}

void sheet_name(struct sheet *sheet, const char *title)
{
    free(sheet->title);
    sheet->title = keep_text(sheet, title);
}

void sheet_add_title(struct sheet *sheet, const char *text, const char *aside)
{
    add_texts(sheet, SHEET_TITLE, text, aside);
}

void sheet_add_heading(struct sheet *sheet, const char *text)
{
    add_texts(sheet, SHEET_HEADING, text, NULL);
}

void sheet_add_text(struct sheet *sheet, enum sheet_block_kind kind, const char *text)
{
    if (text && text[0])
        add_texts(sheet, kind, text, NULL);
}

void sheet_add_drawing(struct sheet *sheet, enum sheet_drawing drawing, const char *text,
                       const char *aside)
{
    add_texts(sheet, SHEET_DRAWING, text, aside);
    if (sheet->status == STATUS_OK)
        sheet->blocks[sheet->count - 1].drawing = drawing;
}

static enum sheet_align align_of(char letter)
{
    const char *at = strchr(alignments, letter);

    return at ? (enum sheet_align)(at - alignments) : SHEET_LEFT;
}

void sheet_begin_table(struct sheet *sheet, const char *align)
{
    struct sheet_block *block = add_block(sheet, SHEET_TABLE);
    struct sheet_table *table = block ? calloc(1, sizeof *table) : NULL;

    if (!block)
        return;
    block->table = table;
    if (!table) {
        keep_failure(sheet, STATUS_NO_MEMORY);
        return;
    }
    for (; align[table->columns] && table->columns < SHEET_COLUMNS_MAX; table->columns++)
        table->align[table->columns] = align_of(align[table->columns]);
}

/* The table being filled; NULL if there is none. */
static struct sheet_table *open_table(const struct sheet *sheet)
{
    if (sheet->status != STATUS_OK || sheet->count == 0)
        return NULL;
    return sheet->blocks[sheet->count - 1].table;
}

void sheet_begin_pairs(struct sheet *sheet)
{
    sheet_begin_table(sheet, "ll");
    if (open_table(sheet))
        open_table(sheet)->pairs = true;
}

void sheet_begin_row(struct sheet *sheet, enum sheet_row row)
{
    struct sheet_table *table = open_table(sheet);

    if (!table || table->rows == SHEET_ROWS_MAX)
        return;
    const size_t columns = (size_t)table->columns, count = columns * (size_t)table->rows;
    struct sheet_cell *cells = realloc(table->cells, (count + columns) * sizeof *cells);
    if (!cells) {
        keep_failure(sheet, STATUS_NO_MEMORY);
        return;
    }
    /* A span of -1 marks a cell that is not filled yet. */
    for (size_t i = 0; i < columns; i++)
        cells[count + i] = (struct sheet_cell){.text = NULL, .span = -1};
    table->cells = cells;
    table->row[table->rows++] = row;
}

void sheet_add_span(struct sheet *sheet, int columns, const char *text)
{
    struct sheet_table *table = open_table(sheet);
    int at = 0;

    if (!table || table->rows == 0)
        return;
    struct sheet_cell *row = &table->cells[(table->rows - 1) * table->columns];
    while (at < table->columns && row[at].span >= 0)
        at++;
    if (at == table->columns)
        return;
    row[at].text = keep_text(sheet, text);
    row[at].span = 1;
    for (int i = 1; i < columns && at + i < table->columns; i++) {
        row[at + i].span = 0;
        row[at].span++;
    }
}

void sheet_add_cell(struct sheet *sheet, const char *text)
{
    sheet_add_span(sheet, 1, text);
}

void sheet_add_pair(struct sheet *sheet, const char *name, const char *text)
{
    if (!text || text[0] == '\0')
        return;
    sheet_begin_row(sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(sheet, name);
    sheet_add_cell(sheet, text);
}

const struct sheet_cell *sheet_cell(const struct sheet_table *table, int row, int column)
{
    return &table->cells[row * table->columns + column];
}
