/* SPDX-License-Identifier: MIT */
#include "commands/sheet_file.h"

#include <stdlib.h>

#include "commands/shop_settings.h"
#include "page/page_write.h"
#include "sheet/sheet_cards.h"
#include "sheet/sheet_estimate.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_page.h"
#include "sheet/sheet_text.h"

static const char *said(const char *text)
{
    return text[0] ? text : NULL;
}

static struct sheet_ask ask_of(const struct sheet_document *document,
                               const struct shop_letterhead *letterhead)
{
    return (struct sheet_ask){.visit = document->visit,
                              .units = *document->units,
                              .shop = said(letterhead->name),
                              .address = said(letterhead->address),
                              .contact = said(letterhead->contact)};
}

bool sheet_file_can_draw(void)
{
    return page_can_write();
}

static enum status add_text(const struct sheet *sheet, bool utf8, struct bytes *bytes)
{
    char *text;
    const enum status status = sheet_write_text(sheet, utf8, &text);

    if (status != STATUS_OK)
        return status;
    bytes_add_text(bytes, text);
    free(text);
    return bytes_status(bytes);
}

/* The paper asked for, else the shop's, else what goes with its units. */
static struct page_size paper_size(const struct sheet_document *document,
                                   const struct shop_letterhead *letterhead)
{
    enum shop_paper paper = document->paper;

    if (paper == SHOP_PAPER_UNSAID)
        paper = shop_settings_paper(letterhead, document->units);
    return paper == SHOP_PAPER_A4 ? page_a4 : page_letter;
}

static enum status add_pages(const struct page_about *about, const struct page_list *pages,
                             enum sheet_format format, struct bytes *bytes)
{
    struct page_bytes made;
    const enum status status = format == SHEET_FORMAT_PDF ? page_write_pdf(pages, about, &made)
                                                          : page_write_svg(pages, &made);

    if (status != STATUS_OK)
        return status;
    bytes_add(bytes, (const char *)made.data, made.length);
    free(made.data);
    return bytes_status(bytes);
}

static enum status add_drawn(const struct sheet *sheet, enum sheet_format format,
                             struct page_size size, struct bytes *bytes)
{
    const struct page_about about = {.title = sheet->title, .date = sheet->date};
    struct page_list *pages;
    enum status status = sheet_lay_pages(sheet, size, &pages);

    if (status != STATUS_OK)
        return status;
    status = add_pages(&about, pages, format, bytes);
    page_list_free(pages);
    return status;
}

static enum status make_label(const struct sheet_document *document, const struct sheet_ask *ask,
                              struct bytes *bytes)
{
    const struct page_about about = {.title = "Label", .date = ""};
    struct page_list *pages;
    enum status status = label_make(document->record, ask, document->label, &pages);

    if (status != STATUS_OK)
        return status;
    status = add_pages(&about, pages, document->format, bytes);
    page_list_free(pages);
    return status;
}

static enum status make_estimate(const struct record *record, const struct sheet_ask *ask,
                                 struct sheet *ret_sheet)
{
    const struct prices prices = shop_settings_prices();

    return sheet_estimate_make(record, ask, &prices, ret_sheet);
}

static enum status make(const struct sheet_document *document, const struct sheet_ask *ask,
                        struct sheet *ret_sheet)
{
    switch (document->kind) {
    case SHEET_ESTIMATE:
        return make_estimate(document->record, ask, ret_sheet);
    case SHEET_CARD:
        return sheet_cards_make(document->record, ask, ret_sheet);
    case SHEET_FOR_OWNER:
    case SHEET_LABEL:
        break;
    }
    return sheet_make(document->record, ask, ret_sheet);
}

static enum status make_sheet(const struct sheet_document *document, const struct sheet_ask *ask,
                              struct page_size paper, struct bytes *bytes)
{
    struct sheet sheet;
    enum status status = make(document, ask, &sheet);

    if (status != STATUS_OK)
        return status;
    if (document->format == SHEET_FORMAT_TEXT)
        status = add_text(&sheet, document->utf8, bytes);
    else
        status = add_drawn(&sheet, document->format, paper, bytes);
    sheet_done(&sheet);
    return status;
}

enum status sheet_file_make(const struct sheet_document *document, struct bytes *ret_bytes)
{
    const struct shop_letterhead letterhead = shop_settings_letterhead();
    const struct sheet_ask ask = ask_of(document, &letterhead);

    if (document->kind == SHEET_LABEL)
        return make_label(document, &ask, ret_bytes);
    return make_sheet(document, &ask, paper_size(document, &letterhead), ret_bytes);
}
