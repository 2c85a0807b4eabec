/* SPDX-License-Identifier: MIT */
#include "sheet/label.h"

#include <math.h>
#include <stdlib.h>

#include "page/page_write.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "sheet/sheet_set.h"

static const struct {
    const char *name;
    struct page_size paper;
    double name_mm, line_mm; /* size of the name's letters and of the others */
} sizes[LABEL_SIZE_COUNT_] = {
    [LABEL_SMALL] = {"small", {57, 32}, 4.0, 2.4},
    [LABEL_MEDIUM] = {"medium", {89, 36}, 4.6, 2.6},
    [LABEL_LARGE] = {"large", {102, 59}, 7.5, 4.1},
};

#define MARGIN_MM 3.0 /* rolls are printed a little off */
#define LEADING   1.28

/* How far letters shrink, and down to where that is no trouble; a name is at least that much larger
 * than the rest. */
#define SHARE_LEAST 0.78
#define EASY_MM     2.1
#define NAME_LEAST  1.15
enum { NAME_LINES = 2 };

const char *label_size_name(enum label_size size)
{
    return sizes[size].name;
}

struct label {
    struct page_ruler *ruler;
    struct page_list *list;
    double width_mm, bottom_mm, y_mm;
};

static int count_lines(const struct label *label, const struct page_font *font, const char *text)
{
    char memory[400];
    struct strbuf line = STRBUF(memory);
    int lines = 0;

    while (set_next_line(label->ruler, font, &text, label->width_mm, &line))
        lines++;
    return lines;
}

static const char cut_mark[] = "\xE2\x80\xA6";

/* Writes a text from y_mm on in at most so many lines, the last one cut where it goes on. */
static void draw_text(struct label *label, const struct page_font *font, const char *text, int most)
{
    char memory[400];
    struct strbuf line = STRBUF(memory);

    for (int i = 1; i <= most; i++) {
        const struct page_point at = {MARGIN_MM, label->y_mm + font->size_mm};
        const bool cut = i == most && count_lines(label, font, text) > 1;
        const double mark_mm = cut ? page_ruler_width_mm(label->ruler, font, cut_mark) : 0;

        if (!set_next_line(label->ruler, font, &text, label->width_mm - mark_mm, &line))
            return;
        strbuf_add(&line, cut ? cut_mark : "");
        page_draw_text(label->list, at, PAGE_LEFT, 0, font, memory);
        label->y_mm += font->size_mm * LEADING;
    }
}

static bool say_when(const struct sheet_maker *maker, struct strbuf *out)
{
    const char *date = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, maker->visit));
    const char *ticket = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_TICKET, maker->visit));

    if (ticket)
        strbuf_addf(out, "Ticket %s", ticket);
    if (date) {
        strbuf_add(out, ticket ? ", set up " : "Set up ");
        sheet_say_date(out, date);
    }
    if (maker->ask->shop)
        strbuf_addf(out, "%s%s", out->length > 0 ? ", " : "", maker->ask->shop);
    return out->length > 0;
}

/* As it was left: what a player notices first when it moves. */
static bool say_relief(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe relief = figures_get(&maker->left.figures, FIGURE_RELIEF, 0);

    if (!relief.given)
        return false;
    strbuf_add(out, "Relief ");
    sheet_say_length(out, relief.value, &maker->ask->units, MEASURE_FEELER);
    return true;
}

static bool say_action(const struct sheet_maker *maker, struct strbuf *out)
{
    const int lowest = maker->left.setup.board.strings;
    const struct maybe bass = figures_get(&maker->left.figures, FIGURE_ACTION, lowest);
    const struct maybe treble = figures_get(&maker->left.figures, FIGURE_ACTION, 1);

    if (!bass.given || !treble.given)
        return false;
    strbuf_add(out, "Action ");
    sheet_say_range(out, bass.value, treble.value, &maker->ask->units, MEASURE_RULE);
    return true;
}

static bool say_owner(const struct sheet_maker *maker, struct strbuf *out)
{
    const char *owner = sheet_text_of(maker, reading_key_one(FIELD_OWNER));

    if (owner)
        strbuf_addf(out, "Owner: %s", owner);
    return owner != NULL;
}

static void add(struct sheet_maker *maker, enum sheet_block_kind kind,
                bool (*say)(const struct sheet_maker *, struct strbuf *))
{
    char memory[400];
    struct strbuf text = STRBUF(memory);

    if (say(maker, &text))
        sheet_add_text(maker->sheet, kind, memory);
}

/* The lines as blocks of a sheet, which makes all texts harmless; returns how many of them the
 * label is for. */
static size_t say_all(struct sheet_maker *maker)
{
    const char *name = sheet_text_of(maker, reading_key_one(FIELD_NAME));

    sheet_add_title(maker->sheet, name ? name : "Set-up", NULL);
    add(maker, SHEET_PARAGRAPH, say_when);
    add(maker, SHEET_HEADING, sheet_say_check);
    add(maker, SHEET_PARAGRAPH, sheet_say_gauges);
    add(maker, SHEET_PARAGRAPH, sheet_say_tuning_short);
    const size_t needed = maker->sheet->count;
    add(maker, SHEET_PARAGRAPH, say_relief);
    add(maker, SHEET_PARAGRAPH, say_action);
    add(maker, SHEET_PARAGRAPH, say_owner);
    return needed;
}

/* The letters of a block at a share of their full size. A name that needs more than its lines is
 * set smaller than that, down to a little over the others. */
static struct page_font font_of(const struct label *label, const struct sheet_block *block,
                                enum label_size size, double share)
{
    const bool is_name = block->kind == SHEET_TITLE;
    const double least_mm = sizes[size].line_mm * share * NAME_LEAST;
    struct page_font font = {.size_mm =
                                 share * (is_name ? sizes[size].name_mm : sizes[size].line_mm),
                             .weight = block->kind == SHEET_PARAGRAPH ? PAGE_PLAIN : PAGE_BOLD};

    while (is_name && font.size_mm > least_mm && count_lines(label, &font, block->text) > 1)
        font.size_mm = fmax(font.size_mm - 0.2, least_mm);
    return font;
}

static int lines_of(const struct label *label, const struct sheet_block *block,
                    const struct page_font *font)
{
    const int lines = count_lines(label, font, block->text);

    return block->kind == SHEET_TITLE && lines > NAME_LINES ? NAME_LINES : lines;
}

static double height_mm(const struct label *label, const struct sheet *sheet, size_t count,
                        enum label_size size, double share)
{
    double mm = 0;

    for (size_t i = 0; i < count; i++) {
        const struct page_font font = font_of(label, &sheet->blocks[i], size, share);

        mm += lines_of(label, &sheet->blocks[i], &font) * font.size_mm * LEADING;
    }
    return mm;
}

/* The share of their full size at which letters hold the first `count` blocks, `least` or more. */
static double find_share(const struct label *label, const struct sheet *sheet, size_t count,
                         enum label_size size, double least)
{
    double share = 1;

    while (share > least &&
           height_mm(label, sheet, count, size, share) > label->bottom_mm - label->y_mm)
        share -= 0.02;
    return share;
}

/* As large as holds all of it, if that can still be read with ease; else as large as holds what
 * the label is for, and as much of the rest as there is room for. */
static void draw_all(struct label *label, const struct sheet *sheet, size_t needed,
                     enum label_size size)
{
    const double easy = EASY_MM / sizes[size].line_mm;
    double share = find_share(label, sheet, sheet->count, size, easy);

    if (share <= easy)
        share = find_share(label, sheet, needed, size, SHARE_LEAST);
    for (size_t i = 0; i < sheet->count; i++) {
        const struct sheet_block *block = &sheet->blocks[i];
        const struct page_font font = font_of(label, block, size, share);
        const int lines = lines_of(label, block, &font);

        if (label->y_mm + lines * font.size_mm * LEADING <= label->bottom_mm)
            draw_text(label, &font, block->text, lines);
    }
}

static enum status draw(const struct sheet *sheet, size_t needed, enum label_size size,
                        struct page_list **ret_list)
{
    const struct page_size paper = sizes[size].paper;
    struct label label = {.ruler = page_ruler_new(),
                          .width_mm = paper.width_mm - 2 * MARGIN_MM,
                          .bottom_mm = paper.height_mm - MARGIN_MM / 2,
                          .y_mm = MARGIN_MM};
    enum status status = label.ruler ? page_list_new(paper, &label.list) : STATUS_NO_MEMORY;

    if (status != STATUS_OK) {
        page_ruler_free(label.ruler);
        return status;
    }
    page_begin(label.list);
    draw_all(&label, sheet, needed, size);
    page_ruler_free(label.ruler);
    status = page_list_status(label.list);
    if (status == STATUS_OK)
        *ret_list = label.list;
    else
        page_list_free(label.list);
    return status;
}

enum status label_make(const struct record *record, const struct sheet_ask *ask,
                       enum label_size size, struct page_list **ret_list)
{
    struct sheet_maker *maker;
    struct sheet sheet;

    sheet_init(&sheet);
    enum status status = sheet_maker_new(record, ask, &sheet, &maker);
    if (status != STATUS_OK)
        return status;
    const size_t needed = say_all(maker);
    free(maker);
    status = sheet.status == STATUS_OK ? draw(&sheet, needed, size, ret_list) : sheet.status;
    sheet_done(&sheet);
    return status;
}
