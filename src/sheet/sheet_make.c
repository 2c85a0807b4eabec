/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_make.h"

#include <stdlib.h>
#include <string.h>

#include "model/reading/place.h"
#include "model/reading/work_line.h"
#include "model/reading/work_since.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "words/kind_words.h"

enum { TEXT_MAX = 1024 };

/* The last day on which anything was measured or done in the visit. Work done after
 * the visit's date has its own date. */
static const char *find_last_day(const struct sheet_maker *maker)
{
    const char *last = "";

    for (int pass = record_last_pass(maker->record, maker->visit); pass > 0; pass--) {
        const char *time =
            sheet_text_of(maker, reading_key_pass(FIELD_PASS_TIME, maker->visit, pass));

        if (time && strlen(time) > 11 && strcmp(time, last) > 0)
            last = time;
    }
    for (int line = record_last_work(maker->record, maker->visit); line > 0; line--) {
        const char *time = sheet_text_of(maker, work_key(WORK_TIME, maker->visit, line));

        if (time && strlen(time) > 11 && strcmp(time, last) > 0)
            last = time;
    }
    return last;
}

static void say_dates(const struct sheet_maker *maker, struct strbuf *out)
{
    const char *date = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, maker->visit));
    const char *last = maker->visit > 0 ? find_last_day(maker) : "";
    char memory[16];
    struct strbuf day = STRBUF(memory);

    if (!date)
        return;
    sheet_say_date(out, date);
    strbuf_add_bytes(&day, last, strlen(last) > 10 ? 10 : 0);
    if (strcmp(memory, date) > 0) {
        strbuf_add(out, " to ");
        sheet_say_date(out, memory);
    }
}

static const char *one(const struct sheet_maker *maker, enum field_id field)
{
    return sheet_text_of(maker, reading_key_one(field));
}

static void name_document(struct sheet_maker *maker, const char *what)
{
    const char *date = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_DATE, maker->visit));
    const char *name = one(maker, FIELD_NAME);
    struct strbuf day = STRBUF(maker->sheet->date);
    char memory[512];
    struct strbuf title = STRBUF(memory);

    strbuf_add(&title, what);
    if (name)
        strbuf_addf(&title, ": %s", name);
    sheet_name(maker->sheet, memory);
    if (date)
        strbuf_add(&day, date);
}

static void add_scale(struct sheet_maker *maker)
{
    const struct maybe scale = record_entered_one(maker->record, FIELD_SCALE);
    const struct maybe bass = record_entered_one(maker->record, FIELD_SCALE_BASS);
    const struct maybe treble = record_entered_one(maker->record, FIELD_SCALE_TREBLE);
    char memory[128];
    struct strbuf text = STRBUF(memory);

    if (bass.given && treble.given) {
        sheet_say_scale(&text, bass.value, &maker->ask->units);
        strbuf_add(&text, " bass, ");
        sheet_say_scale(&text, treble.value, &maker->ask->units);
        strbuf_add(&text, " treble");
    } else if (scale.given) {
        sheet_say_scale(&text, scale.value, &maker->ask->units);
    }
    sheet_add_pair(maker->sheet, "scale", memory);
}

/* A day of the visit in words. */
static void add_day(struct sheet_maker *maker, const char *name, enum field_id field)
{
    const char *date = sheet_text_of(maker, reading_key_visit(field, maker->visit));
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (date)
        sheet_say_date(&text, date);
    sheet_add_pair(maker->sheet, name, memory);
}

static void add_facts(struct sheet_maker *maker)
{
    char memory[64];
    struct strbuf kind = STRBUF(memory);

    sheet_begin_pairs(maker->sheet);
    sheet_add_pair(maker->sheet, "ticket",
                   sheet_text_of(maker, reading_key_visit(FIELD_VISIT_TICKET, maker->visit)));
    sheet_add_pair(maker->sheet, "instrument", one(maker, FIELD_NAME));
    kind_words_add(maker->record, &kind);
    sheet_add_pair(maker->sheet, "kind", memory);
    sheet_add_pair(maker->sheet, "maker", one(maker, FIELD_MAKER));
    sheet_add_pair(maker->sheet, "serial", one(maker, FIELD_SERIAL));
    sheet_add_pair(maker->sheet, "built", one(maker, FIELD_BUILT));
    add_scale(maker);
    sheet_add_pair(maker->sheet, "owner", one(maker, FIELD_OWNER));
    if (maker->goes_back &&
        sheet_text_of(maker, reading_key_visit(FIELD_VISIT_HANDED_OVER, maker->visit)))
        add_day(maker, "handed over", FIELD_VISIT_HANDED_OVER);
    else
        add_day(maker, "promised for", FIELD_VISIT_PROMISED);
}

void sheet_make_claim(struct sheet_maker *maker)
{
    const char *ticket = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_TICKET, maker->visit));
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    if (!ticket)
        return;
    strbuf_add(&text, "Cut along the line, and bring the part below to collect the instrument");
    if (maker->ask->shop)
        strbuf_addf(&text, " from %s", maker->ask->shop);
    strbuf_add_char(&text, '.');
    sheet_add_text(maker->sheet, SHEET_CUT, memory);
    strbuf_clear(&text);
    strbuf_addf(&text, "Ticket %s", ticket);
    sheet_add_heading(maker->sheet, memory);
    sheet_begin_pairs(maker->sheet);
    sheet_add_pair(maker->sheet, "instrument", one(maker, FIELD_NAME));
    sheet_add_pair(maker->sheet, "owner", one(maker, FIELD_OWNER));
    add_day(maker, "left with us", FIELD_VISIT_DATE);
    add_day(maker, "promised for", FIELD_VISIT_PROMISED);
}

static void add_head(struct sheet_maker *maker, const char *what)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    const struct sheet_ask *ask = maker->ask;

    if (ask->shop)
        strbuf_addf(&text, "%s ", what);
    say_dates(maker, &text);
    sheet_add_title(maker->sheet, ask->shop ? ask->shop : what, memory);
    strbuf_clear(&text);
    if (ask->address)
        strbuf_add(&text, ask->address);
    if (ask->contact)
        strbuf_addf(&text, "%s%s", text.length > 0 ? " \xC2\xB7 " : "", ask->contact);
    sheet_add_text(maker->sheet, SHEET_SMALL, memory);
    add_facts(maker);
}

static void add_complaint(struct sheet_maker *maker)
{
    const char *reason = sheet_text_of(maker, reading_key_visit(FIELD_VISIT_REASON, maker->visit));

    if (!reason)
        return;
    sheet_add_heading(maker->sheet, "Why it came in");
    sheet_add_text(maker->sheet, SHEET_PARAGRAPH, reason);
}

void sheet_make_head(struct sheet_maker *maker, const char *what)
{
    name_document(maker, what);
    add_head(maker, what);
    add_complaint(maker);
}

static void add_reserve(struct sheet_maker *maker)
{
    if (maker->last > 0)
        sheet_add_text(maker->sheet, SHEET_SMALL,
                       "Lengths were read by hand; tensions, room to swing, moisture "
                       "and dates are estimates. The gauge on the instrument decides.");
}

static void add_parts(struct sheet_maker *maker)
{
    maker->goes_back = true;
    sheet_make_head(maker, "Set-up sheet");
    sheet_make_readings(maker);
    sheet_make_headroom(maker);
    sheet_make_done(maker);
    sheet_make_notes(maker);
    sheet_make_due(maker);
    sheet_make_strings(maker);
    sheet_make_intonation(maker);
    sheet_make_climate(maker);
    sheet_make_watch(maker);
    sheet_make_cautions(maker);
    add_reserve(maker);
}

static bool has_visit(const struct record *record, int visit)
{
    int next = visit - 1;

    return visit == 0 || (record_next_visit(record, &next) && next == visit);
}

/* Where the last pass was for the ear or the tuner alone, how the strings lie is of the pass before
 * it in which that was read; what is due is of the last one all the same. */
static void take_heights(struct sheet_maker *maker, struct place last)
{
    struct place at = last;
    struct derived read;

    if (maker->last == 0 || figures_get(&maker->left.figures, FIGURE_RELIEF, 0).given)
        return;
    while (place_before(&at) && at.visit == maker->visit) {
        if (!place_read(at, FIELD_RELIEF).given)
            continue;
        if (work_since(at, last, SHEET_HEIGHT_MOVES, 0))
            return;
        derive_pass(at, &read);
        read.moves = maker->left.moves;
        read.findings = maker->left.findings;
        maker->left = read;
        return;
    }
}

static void find_passes(struct sheet_maker *maker)
{
    struct place first = place_of(maker->record, maker->visit, 0), last = first;

    last.pass = maker->last = record_last_read_pass(maker->record, maker->visit);
    if (maker->last > 0 && place_next(&first) && first.visit == maker->visit)
        maker->first = first.pass;
    derive_pass(place_of(maker->record, maker->visit, maker->first), &maker->found);
    derive_pass(last, &maker->left);
    take_heights(maker, last);
    frets_plan_make(last, &maker->left, &maker->sheet->frets);
}

enum status sheet_maker_new(const struct record *record, const struct sheet_ask *ask,
                            struct sheet *sheet, struct sheet_maker **ret_maker)
{
    const int visit = ask->visit > 0 ? ask->visit : record_last_visit(record);

    if (!has_visit(record, visit))
        return STATUS_NOT_FOUND;
    struct sheet_maker *maker = calloc(1, sizeof *maker);
    if (!maker)
        return STATUS_NO_MEMORY;
    maker->then = record_as_of(record, visit);
    maker->record = &maker->then;
    maker->ask = ask;
    maker->sheet = sheet;
    maker->visit = visit;
    find_passes(maker);
    *ret_maker = maker;
    return STATUS_OK;
}

enum status sheet_maker_end(struct sheet_maker *maker, struct sheet *ret_sheet)
{
    struct sheet *sheet = maker->sheet;
    const enum status status = sheet->status;

    free(maker);
    if (status != STATUS_OK)
        sheet_done(sheet);
    else
        *ret_sheet = *sheet;
    return status;
}

enum status sheet_make(const struct record *record, const struct sheet_ask *ask,
                       struct sheet *ret_sheet)
{
    struct sheet_maker *maker;
    struct sheet sheet;

    sheet_init(&sheet);
    const enum status status = sheet_maker_new(record, ask, &sheet, &maker);
    if (status != STATUS_OK)
        return status;
    add_parts(maker);
    return sheet_maker_end(maker, ret_sheet);
}
