/* SPDX-License-Identifier: MIT */
#include "commands/layout_command.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/layout_options.h"
#include "commands/output.h"
#include "commands/shop_settings.h"
#include "commands/with_record.h"
#include "model/derive/asked.h"
#include "page/page_write.h"
#include "template/template_pages.h"

/* A pass, and what is derived from it. */
struct state {
    struct place place;
    struct derived derived;
};

/* What is drawn from: the pass that was asked for or the last, and for what a reset takes the pass
 * that asked for it. */
struct states {
    struct state shown, reset;
};

struct drawings {
    enum template_kind kind[TEMPLATE_COUNT_];
    struct place place[TEMPLATE_COUNT_];
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

/* False, after a message, where no such pass was read. */
static bool find_place(const struct layout_options *options, const struct record *record,
                       struct place *ret_place)
{
    struct place place = place_current(record);

    if (options->visit > 0)
        place = place_of(record, options->visit, record_last_read_pass(record, options->visit));
    if (options->pass > 0)
        place.pass = options->pass;
    struct place read = place_of(record, place.visit, place.pass - 1);
    if ((options->visit > 0 || options->pass > 0) &&
        !(place.pass > 0 && place_next(&read) && read.visit == place.visit &&
          read.pass == place.pass)) {
        report_begin(options->path, stderr);
        if (place.pass > 0)
            fprintf(stderr, " nothing was read in visit %d, pass %d\n", place.visit, place.pass);
        else
            fprintf(stderr, " no pass was read in visit %d\n", place.visit);
        return false;
    }
    *ret_place = place;
    return true;
}

static void find_states(const struct layout_options *options, struct place place,
                        struct states *ret_states)
{
    ret_states->shown.place = place;
    derive_pass(place, &ret_states->shown.derived);
    if (options->pass > 0 ||
        !asked_for_reset(place, &ret_states->reset.place, &ret_states->reset.derived))
        ret_states->reset = ret_states->shown;
}

/* Whether it shows a reset that no pass asked for. A pass that was named is drawn from anyway. */
static bool is_unasked(const struct layout_options *options, enum template_kind kind,
                       const struct state *state)
{
    if (options->pass > 0 || !template_is_of_reset(kind) ||
        move_set_reset(&state->derived.moves) != RESET_SADDLE)
        return false;
    report_begin(options->path, stderr);
    fprintf(stderr,
            " template %s left out: no pass of visit %d asks for a neck reset; --pass %d draws it "
            "anyway\n",
            template_name(kind), state->place.visit, state->place.pass);
    return true;
}

/* Draws the templates that are wanted and possible. *ret_complete is false if one that was named
 * lacks readings or a pass that asks for it. */
static enum status draw(const struct layout_options *options, const struct states *states,
                        struct drawings *drawings, bool *ret_complete)
{
    *ret_complete = true;
    for (int k = 0; k < TEMPLATE_COUNT_; k++) {
        const enum template_kind kind = (enum template_kind)k;
        const struct state *state = template_is_of_reset(kind) ? &states->reset : &states->shown;
        char memory[800];
        struct strbuf missing = STRBUF(memory);

        if (!options->wanted[k] ||
            (!options->named && !template_applies(kind, state->place.record, &state->derived)))
            continue;
        enum status status = STATUS_ABSENT;
        if (!is_unasked(options, kind, state)) {
            status = template_draw(kind, state->place, &state->derived,
                                   &drawings->list[drawings->count], &missing);
            if (status == STATUS_ABSENT)
                say_missing(options->path, kind, memory);
        }
        if (status == STATUS_ABSENT) {
            *ret_complete = *ret_complete && !options->named;
            continue;
        }
        if (status != STATUS_OK)
            return status;
        drawings->place[drawings->count] = state->place;
        drawings->kind[drawings->count++] = kind;
    }
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

/* "visit 1, pass 2, 2026-03-02". The time of a pass may bring its own day. */
static void add_readings(struct place place, struct strbuf *out)
{
    const struct reading_key visited = reading_key_visit(FIELD_VISIT_DATE, place.visit);
    const struct reading_key read = place_key(place, FIELD_PASS_TIME);
    const char *time = record_text(place.record, &read), *day = record_text(place.record, &visited);

    if (place.pass == 0)
        return;
    strbuf_addf(out, "visit %d, pass %d", place.visit, place.pass);
    if (time && strlen(time) > 11 && time[10] == 'T')
        day = time;
    if (!day)
        return;
    strbuf_add(out, ", ");
    strbuf_add_bytes(out, day, strlen(day) > 10 ? 10 : strlen(day));
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
    struct states states;
    struct place place;
    bool complete = false;

    if (!find_place(options, record, &place))
        return EXIT_USAGE;
    find_states(options, place, &states);
    enum status status = draw(options, &states, &drawings, &complete);
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
