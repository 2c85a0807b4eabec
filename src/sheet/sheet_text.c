/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_text.h"

#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

enum {
    INDENT = 2,      /* of everything under a heading */
    GAP = 2,         /* between the columns of a table */
    LEAST_WIDTH = 8, /* of a column of words */
    LINE_BYTES = 4 * SHEET_TEXT_COLUMNS * 2
};

/* The text as it grows. */
struct page {
    bool utf8;
    char *text;
    size_t length, capacity;
    enum status status;
    int blank; /* blank lines at its end; the start counts as many */
};

static void add_bytes(struct page *page, const char *bytes, size_t length)
{
    if (page->status != STATUS_OK)
        return;
    if (page->length + length + 1 > page->capacity) {
        const size_t capacity = 2 * (page->length + length + 1);
        char *text = realloc(page->text, capacity);

        if (!text) {
            page->status = STATUS_NO_MEMORY;
            return;
        }
        page->text = text;
        page->capacity = capacity;
    }
    memcpy(page->text + page->length, bytes, length);
    page->length += length;
    page->text[page->length] = '\0';
}

/* Adds a line without its trailing blanks. */
static void add_line(struct page *page, const char *line)
{
    size_t length = strlen(line);

    while (length > 0 && line[length - 1] == ' ')
        length--;
    add_bytes(page, line, length);
    add_bytes(page, "\n", 1);
    page->blank = length > 0 ? 0 : page->blank + 1;
}

/* Adds a blank line, unless there is one already. */
static void part(struct page *page)
{
    if (page->blank == 0)
        add_line(page, "");
}

/* The text as it may be written: in ASCII if asked for. The caller frees it. */
static char *writable(struct page *page, const char *text)
{
    /* A substitute takes at most five bytes and replaces at least two. */
    const size_t size = 3 * strlen(text ? text : "") + 8;
    char *copy = malloc(size);

    if (!copy) {
        page->status = STATUS_NO_MEMORY;
        return NULL;
    }
    struct strbuf out = strbuf_over(copy, size);
    if (page->utf8)
        strbuf_add(&out, text ? text : "");
    else
        utf8_add_ascii(&out, text ? text : "");
    return copy;
}

static void pad(struct strbuf *line, int columns)
{
    for (int i = utf8_columns(line->text); i < columns; i++)
        strbuf_add_char(line, ' ');
}

/* Adds a paragraph with `first` before its first line and blanks before the others. */
static void add_wrapped(struct page *page, const char *text, const char *first)
{
    const int indent = utf8_columns(first);
    char *copy = writable(page, text);
    const char *at = copy;

    while (at && *at) {
        char memory[LINE_BYTES];
        struct strbuf line = STRBUF(memory);
        const size_t length = utf8_line(at, SHEET_TEXT_COLUMNS - indent);

        if (length == 0)
            break;
        strbuf_add(&line, at == copy ? first : "");
        pad(&line, indent);
        strbuf_add_bytes(&line, at, length);
        add_line(page, memory);
        at += length;
        at += strspn(at, " ");
    }
    free(copy);
}

static void add_rule(struct page *page, int columns)
{
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    for (int i = 0; i < columns; i++)
        strbuf_add(&line, page->utf8 ? "\xE2\x94\x80" : "-");
    add_line(page, memory);
}

static void add_title(struct page *page, const struct sheet_block *block)
{
    char *text = writable(page, block->text), *aside = writable(page, block->aside);
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    if (text && aside) {
        const int right = SHEET_TEXT_COLUMNS - utf8_columns(aside);

        strbuf_add_bytes(&line, text, utf8_clip(text, right - 1));
        pad(&line, right);
        strbuf_add(&line, aside);
        add_line(page, memory);
        add_rule(page, SHEET_TEXT_COLUMNS);
    }
    free(text);
    free(aside);
}

/* A table being laid out. */
struct columns {
    const struct sheet_table *table;
    int width[SHEET_COLUMNS_MAX];
    int gap;
    char **cells; /* as they may be written, by row and column; NULL for an empty one */
};

static const char *cell_text(const struct columns *columns, int row, int column)
{
    const char *text = columns->cells[row * columns->table->columns + column];

    return text ? text : "";
}

static int all_width(const struct columns *columns)
{
    int width = INDENT;

    for (int i = 0; i < columns->table->columns; i++)
        width += columns->width[i] + (i > 0 ? columns->gap : 0);
    return width;
}

/* The width of the columns that a cell spans. */
static int span_width(const struct columns *columns, int column, int span)
{
    int width = 0;

    for (int i = 0; i < span; i++)
        width += columns->width[column + i] + (i > 0 ? columns->gap : 0);
    return width;
}

/* The widest column of words that can be made narrower; -1 if there is none. */
static int widest(const struct columns *columns)
{
    int best = -1;

    for (int i = 0; i < columns->table->columns; i++)
        if (columns->table->align[i] == SHEET_LEFT && columns->width[i] > LEAST_WIDTH &&
            (best < 0 || columns->width[i] > columns->width[best]))
            best = i;
    return best;
}

static void widen_for_spans(struct columns *columns)
{
    const struct sheet_table *table = columns->table;

    for (int row = 0; row < table->rows; row++)
        for (int i = 0; i < table->columns; i++) {
            const int span = sheet_cell(table, row, i)->span;
            const int need = utf8_columns(cell_text(columns, row, i));

            if (span > 1 && span_width(columns, i, span) < need)
                columns->width[i + span - 1] += need - span_width(columns, i, span);
        }
}

static void find_widths(struct columns *columns)
{
    const struct sheet_table *table = columns->table;

    for (int row = 0; row < table->rows; row++)
        for (int i = 0; i < table->columns; i++) {
            const int width = utf8_columns(cell_text(columns, row, i));

            if (sheet_cell(table, row, i)->span <= 1 && width > columns->width[i])
                columns->width[i] = width;
        }
    columns->gap = GAP;
    widen_for_spans(columns);
    if (all_width(columns) > SHEET_TEXT_COLUMNS && widest(columns) < 0)
        columns->gap = 1;
    for (int i; all_width(columns) > SHEET_TEXT_COLUMNS && (i = widest(columns)) >= 0;)
        columns->width[i]--;
}

/* Adds one line of a row; `at` holds the rest of each cell, and advances. */
static bool add_row_line(struct page *page, const struct columns *columns, int row,
                         const char *at[SHEET_COLUMNS_MAX])
{
    const struct sheet_table *table = columns->table;
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);
    int column = INDENT;
    bool more = false;

    for (int i = 0; i < table->columns; i++) {
        const int span = sheet_cell(table, row, i)->span;
        const int width = span > 1 ? span_width(columns, i, span) : columns->width[i];
        const size_t length = utf8_line(at[i], width);
        char cell[LINE_BYTES];
        struct strbuf part_text = STRBUF(cell);

        strbuf_add_bytes(&part_text, at[i], length);
        const int room = width - utf8_columns(cell);
        const enum sheet_align align = span > 1 ? SHEET_CENTRE : table->align[i];
        pad(&line, column + (align == SHEET_RIGHT ? room : align == SHEET_CENTRE ? room / 2 : 0));
        strbuf_add(&line, cell);
        at[i] += length;
        at[i] += strspn(at[i], " ");
        more = more || (length > 0 && at[i][0]);
        column += columns->width[i] + columns->gap;
    }
    add_line(page, memory);
    return more;
}

static void add_row(struct page *page, const struct columns *columns, int row)
{
    const char *at[SHEET_COLUMNS_MAX];

    for (int i = 0; i < columns->table->columns; i++)
        at[i] = cell_text(columns, row, i);
    while (add_row_line(page, columns, row, at))
        continue;
}

static void add_table(struct page *page, const struct sheet_table *table)
{
    const size_t count = (size_t)(table->rows * table->columns);
    struct columns columns = {.table = table, .cells = calloc(count + 1, sizeof(char *))};

    if (!columns.cells)
        page->status = STATUS_NO_MEMORY;
    for (size_t i = 0; columns.cells && i < count; i++)
        columns.cells[i] = writable(page, table->cells[i].text);
    if (page->status == STATUS_OK) {
        find_widths(&columns);
        for (int row = 0; row < table->rows; row++)
            add_row(page, &columns, row);
    }
    for (size_t i = 0; columns.cells && i < count; i++)
        free(columns.cells[i]);
    free(columns.cells);
}

enum { LABEL = 8 }; /* the strings' names, left of the map */

/* The fret numbers over their marks, as many as fit with a gap. */
static void add_map_head(struct page *page, int notes, int cell)
{
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    strbuf_add(&line, "  fret");
    for (int n = 0; n < notes; n++) {
        if (cell < 3 && n % 3 != 0)
            continue;
        pad(&line, LABEL + cell * (n + 1) - (n > 9 ? 2 : 1));
        strbuf_addf(&line, "%d", n);
    }
    add_line(page, memory);
}

static void add_map(struct page *page, const struct sheet *sheet)
{
    const struct frets_plan *plan = &sheet->frets;
    const int cell = LABEL + 3 * plan->frets <= SHEET_TEXT_COLUMNS ? 3 : 2;

    add_map_head(page, plan->frets, cell);
    for (int s = plan->strings; s >= 1; s--) {
        char memory[LINE_BYTES];
        struct strbuf line = STRBUF(memory);

        pad(&line, INDENT);
        strbuf_add_bytes(&line, sheet->label[s], utf8_clip(sheet->label[s], LABEL - INDENT - 1));
        for (int n = 0; n < plan->frets; n++) {
            pad(&line, LABEL + cell * (n + 1) - 1);
            strbuf_add_char(&line, frets_mark(plan->headroom[s][n]));
        }
        add_line(page, memory);
    }
}

static void add_drawing(struct page *page, const struct sheet *sheet,
                        const struct sheet_block *block)
{
    if (block->drawing != SHEET_HEADROOM_MAP)
        return;
    part(page);
    add_wrapped(page, block->text, "  ");
    add_wrapped(page, block->aside, "  ");
    part(page);
    add_map(page, sheet);
}

static const char cut_line[] =
    "- - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - -";

static void add_block(struct page *page, const struct sheet *sheet, const struct sheet_block *block,
                      bool after_item)
{
    switch (block->kind) {
    case SHEET_TITLE:
        add_title(page, block);
        return;
    case SHEET_HEADING: {
        char *text = writable(page, block->text);

        part(page);
        if (text)
            add_line(page, text);
        free(text);
        return;
    }
    case SHEET_ITEM:
        if (!after_item)
            part(page);
        add_wrapped(page, block->text, "  - ");
        return;
    case SHEET_PARAGRAPH:
    case SHEET_SMALL:
        part(page);
        add_wrapped(page, block->text, "  ");
        return;
    case SHEET_CUT:
        part(page);
        add_wrapped(page, block->text, "  ");
        add_line(page, cut_line);
        return;
    case SHEET_TABLE:
        part(page);
        add_table(page, block->table);
        return;
    case SHEET_DRAWING:
        add_drawing(page, sheet, block);
        return;
    }
}

enum status sheet_write_text(const struct sheet *sheet, bool utf8, char **ret_text)
{
    struct page page = {.utf8 = utf8, .blank = 1};
    enum sheet_block_kind before = SHEET_TITLE;

    for (size_t i = 0; i < sheet->count; i++) {
        const struct sheet_block *block = &sheet->blocks[i];

        /* A block right under its heading needs no blank line. */
        if (before == SHEET_HEADING)
            page.blank = 1;
        add_block(&page, sheet, block, before == SHEET_ITEM);
        before = block->kind;
    }
    add_bytes(&page, "", 0);
    if (page.status != STATUS_OK) {
        free(page.text);
        return page.status;
    }
    *ret_text = page.text;
    return STATUS_OK;
}
