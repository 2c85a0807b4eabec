/* SPDX-License-Identifier: MIT */
#include "commands/layout_pages.h"

#include <string.h>

#include "commands/shop_settings.h"
#include "template/template_pages.h"

void layout_drawings_free(struct layout_drawings *drawings)
{
    for (int i = 0; i < drawings->count; i++)
        page_list_free(drawings->list[i]);
}

enum status layout_add(struct layout_drawings *drawings, enum template_kind kind,
                       struct place place, const struct derived *derived, struct strbuf *missing)
{
    const int at = drawings->count;
    const enum status status = template_draw(kind, place, derived, &drawings->list[at], missing);

    if (status != STATUS_OK)
        return status;
    drawings->kind[at] = kind;
    drawings->place[at] = place;
    drawings->count++;
    return STATUS_OK;
}

static struct page_size paper_or_shops(struct page_size paper)
{
    if (paper.width_mm > 0)
        return paper;
    const struct shop_letterhead letterhead = shop_settings_letterhead();
    const struct shop_units units = shop_settings_read(NULL);

    return shop_settings_paper(&letterhead, &units) == SHOP_PAPER_A4 ? page_a4 : page_letter;
}

static enum status lay_out(const struct template_sheet *sheets, int count, bool svg,
                           struct page_size paper, struct page_list **ret_pages)
{
    struct page_list *pages;

    if (svg)
        return template_lay_drawing(sheets, count, ret_pages);
    enum status status = page_list_new(paper_or_shops(paper), &pages);
    if (status != STATUS_OK)
        return status;
    status = template_add_pages(pages, sheets, count);
    if (status == STATUS_OK)
        *ret_pages = pages;
    else
        page_list_free(pages);
    return status;
}

/* The time of a pass may bring its own day. */
static void add_day(struct place place, struct strbuf *out)
{
    const struct reading_key visited = reading_key_visit(FIELD_VISIT_DATE, place.visit);
    const struct reading_key read = place_key(place, FIELD_PASS_TIME);
    const char *time = record_text(&place.record, &read),
               *day = record_text(&place.record, &visited);

    if (time && strlen(time) > 11 && time[10] == 'T')
        day = time;
    if (day)
        strbuf_add_bytes(out, day, strlen(day) > 10 ? 10 : strlen(day));
}

/* "visit 1, pass 2, 2026-03-02". */
static void add_readings(struct place place, struct strbuf *out)
{
    char memory[16];
    struct strbuf day = STRBUF(memory);

    if (place.pass == 0)
        return;
    strbuf_addf(out, "visit %d, pass %d", place.visit, place.pass);
    add_day(place, &day);
    if (memory[0] != '\0')
        strbuf_addf(out, ", %s", memory);
}

enum status layout_make_bytes(const struct record *record, const struct layout_drawings *drawings,
                              bool svg, struct page_size paper, struct page_bytes *ret_bytes)
{
    const struct reading_key name = reading_key_one(FIELD_NAME);
    const char *instrument = record_text(record, &name);
    char memory[16];
    struct strbuf day = STRBUF(memory);

    add_day(drawings->place[0], &day);
    const struct shown title = shown_string(instrument ? instrument : ""),
                       visited = shown_string(memory);
    const struct page_about about = {.title = title.text, .date = visited.text};
    struct template_sheet sheets[TEMPLATE_COUNT_];
    char readings[TEMPLATE_COUNT_][64];
    struct page_list *pages;

    for (int i = 0; i < drawings->count; i++) {
        struct strbuf text = STRBUF(readings[i]);

        readings[i][0] = '\0';
        add_readings(drawings->place[i], &text);
        sheets[i] = (struct template_sheet){.drawing = drawings->list[i],
                                            .title = template_title(drawings->kind[i]),
                                            .instrument = title.text,
                                            .date = readings[i],
                                            .caution = template_caution(drawings->kind[i])};
    }
    enum status status = lay_out(sheets, drawings->count, svg, paper, &pages);
    if (status != STATUS_OK)
        return status;
    status = svg ? page_write_svg(pages, ret_bytes) : page_write_pdf(pages, &about, ret_bytes);
    page_list_free(pages);
    return status;
}
