/* SPDX-License-Identifier: MIT */
#include "commands/layout_command.h"

#include <errno.h>
#include <stdlib.h>

#include "commands/layout_options.h"
#include "commands/output.h"
#include "commands/shop_settings.h"
#include "commands/with_record.h"
#include "page/page_write.h"
#include "template/template_pages.h"

struct drawings {
    enum template_kind kind[TEMPLATE_COUNT_];
    struct page_list *list[TEMPLATE_COUNT_];
    int count;
};

static void free_drawings(struct drawings *drawings)
{
    for (int i = 0; i < drawings->count; i++)
        page_list_free(drawings->list[i]);
}

static void say_missing(const char *path, enum template_kind kind, const char *missing)
{
    report_begin(path, stderr);
    fprintf(stderr, " template %s left out: missing %s\n", template_name(kind), missing);
}

/* Draws the templates that are wanted and possible. *ret_complete is false if one that was named
 * lacks readings. */
static enum status draw(const struct layout_options *options, const struct record *record,
                        struct drawings *drawings, bool *ret_complete)
{
    struct derived derived;
    bool complete = true;

    derive_current(record, &derived);
    for (int k = 0; k < TEMPLATE_COUNT_; k++) {
        const enum template_kind kind = (enum template_kind)k;
        char memory[400];
        struct strbuf missing = STRBUF(memory);

        if (!options->wanted[k] || (!options->named && !template_applies(kind, record, &derived)))
            continue;
        const enum status status =
            template_draw(kind, record, &derived, &drawings->list[drawings->count], &missing);
        if (status == STATUS_ABSENT) {
            say_missing(options->path, kind, memory);
            complete = complete && !options->named;
            continue;
        }
        if (status != STATUS_OK)
            return status;
        drawings->kind[drawings->count++] = kind;
    }
    *ret_complete = complete;
    return STATUS_OK;
}

static struct page_size paper_of(const struct layout_options *options)
{
    if (options->paper.width_mm > 0)
        return options->paper;
    const struct shop_letterhead letterhead = shop_settings_letterhead();
    const struct shop_units units = shop_settings_read(NULL);

    return shop_settings_paper(&letterhead, &units) == SHOP_PAPER_A4 ? page_a4 : page_letter;
}

static enum status lay_out(const struct layout_options *options,
                           const struct template_sheet *sheets, int count,
                           struct page_list **ret_pages)
{
    struct page_list *pages;

    if (options->svg)
        return template_lay_drawing(sheets, count, ret_pages);
    enum status status = page_list_new(paper_of(options), &pages);
    for (int i = 0; i < count && status == STATUS_OK; i++) {
        status = template_add_pages(pages, &sheets[i]);
        if (status != STATUS_OK)
            page_list_free(pages);
    }
    if (status == STATUS_OK)
        *ret_pages = pages;
    return status;
}

/* Dated with the day of the readings, not today, so that the same record gives the same bytes. */
static enum status make_bytes(const struct layout_options *options, const struct record *record,
                              const struct drawings *drawings, struct page_bytes *ret_bytes)
{
    const struct reading_key name = reading_key_one(FIELD_NAME);
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, record_last_visit(record));
    const char *instrument = record_text(record, &name), *day = record_text(record, &date);
    const struct shown title = shown_string(instrument ? instrument : ""),
                       visited = shown_string(day ? day : "");
    const struct page_about about = {.title = title.text, .date = visited.text};
    struct template_sheet sheets[TEMPLATE_COUNT_];
    struct page_list *pages;

    for (int i = 0; i < drawings->count; i++)
        sheets[i] = (struct template_sheet){.drawing = drawings->list[i],
                                            .title = template_title(drawings->kind[i]),
                                            .instrument = title.text,
                                            .date = visited.text,
                                            .caution = template_caution(drawings->kind[i])};
    enum status status = lay_out(options, sheets, drawings->count, &pages);
    if (status != STATUS_OK)
        return status;
    status =
        options->svg ? page_write_svg(pages, ret_bytes) : page_write_pdf(pages, &about, ret_bytes);
    page_list_free(pages);
    return status;
}

static enum exit_code make(const void *given, const struct record *record)
{
    const struct layout_options *options = given;
    struct drawings drawings = {.count = 0};
    struct page_bytes bytes = {.data = NULL};
    bool complete = false;
    enum status status = draw(options, record, &drawings, &complete);

    if (status == STATUS_OK && drawings.count == 0) {
        free_drawings(&drawings);
        return EXIT_FINDINGS;
    }
    if (status == STATUS_OK)
        status = make_bytes(options, record, &drawings, &bytes);
    enum exit_code code = EXIT_CANNOT;
    if (status == STATUS_OK)
        code = output_write(options->output, (const char *)bytes.data, bytes.length);
    else
        report_failure(options->output, status, errno, stderr);
    free(bytes.data);
    free_drawings(&drawings);
    return code == EXIT_GOOD && !complete ? EXIT_FINDINGS : code;
}

enum exit_code layout_command(int count, char *const *words)
{
    struct layout_options options;

    if (!layout_options_read(count, words, &options))
        return EXIT_USAGE;
    if (!page_can_write()) {
        fputs("sillet: this sillet was built without cairo, which draws PDF and SVG; build it "
              "with -Dcairo=enabled\n",
              stderr);
        return EXIT_CANNOT;
    }
    if (!output_spares(options.output, options.path))
        return EXIT_USAGE;
    return with_record(options.path, PROBLEM_ERROR, make, &options);
}
