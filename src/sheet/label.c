/* SPDX-License-Identifier: MIT */
#include "sheet/label.h"

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

/* A text in as many lines as it takes, or none if there is no room for them all. */
static void draw_text(struct label *label, double size_mm, enum page_weight weight,
                      const char *text)
{
    const struct page_font font = {.size_mm = size_mm, .weight = weight};
    char memory[400];
    struct strbuf line = STRBUF(memory);

    if (label->y_mm + size_mm * LEADING * count_lines(label, &font, text) > label->bottom_mm)
        return;
    while (set_next_line(label->ruler, &font, &text, label->width_mm, &line)) {
        const struct page_point at = {MARGIN_MM, label->y_mm + size_mm};

        page_draw_text(label->list, at, PAGE_LEFT, 0, &font, memory);
        label->y_mm += size_mm * LEADING;
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

static void say_outer(const struct sheet_maker *maker, const char *what, enum figure_id figure,
                      enum field_measure measure, struct strbuf *out)
{
    const int lowest = maker->left.setup.board.strings;
    const struct maybe bass = figures_get(&maker->left.figures, figure, lowest);
    const struct maybe treble = figures_get(&maker->left.figures, figure, 1);

    if (!bass.given || !treble.given)
        return;
    strbuf_addf(out, "%s%s ", out->length > 0 ? ", " : "", what);
    sheet_say_range(out, bass.value, treble.value, &maker->ask->units, measure);
}

/* As it was left: what a player notices first when it moves. */
static bool say_left(const struct sheet_maker *maker, struct strbuf *out)
{
    const struct maybe relief = figures_get(&maker->left.figures, FIGURE_RELIEF, 0);

    if (relief.given) {
        strbuf_add(out, "Relief ");
        sheet_say_length(out, relief.value, &maker->ask->units, MEASURE_FEELER);
    }
    say_outer(maker, "action", FIGURE_ACTION, MEASURE_RULE, out);
    return out->length > 0;
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

/* The lines as blocks of a sheet, which makes all texts harmless. */
static void say_all(struct sheet_maker *maker)
{
    const char *name = sheet_text_of(maker, reading_key_one(FIELD_NAME));

    sheet_add_title(maker->sheet, name ? name : "Set-up", NULL);
    add(maker, SHEET_PARAGRAPH, say_when);
    add(maker, SHEET_HEADING, sheet_say_check);
    add(maker, SHEET_PARAGRAPH, sheet_say_gauges);
    add(maker, SHEET_PARAGRAPH, sheet_say_tuning);
    add(maker, SHEET_PARAGRAPH, say_left);
    add(maker, SHEET_PARAGRAPH, say_owner);
}

static enum status draw(const struct sheet *sheet, enum label_size size,
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
    for (size_t i = 0; i < sheet->count; i++) {
        const struct sheet_block *block = &sheet->blocks[i];

        draw_text(&label, block->kind == SHEET_TITLE ? sizes[size].name_mm : sizes[size].line_mm,
                  block->kind == SHEET_PARAGRAPH ? PAGE_PLAIN : PAGE_BOLD, block->text);
    }
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
    say_all(maker);
    free(maker);
    status = sheet.status == STATUS_OK ? draw(&sheet, size, ret_list) : sheet.status;
    sheet_done(&sheet);
    return status;
}
