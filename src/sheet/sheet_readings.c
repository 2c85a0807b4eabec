/* SPDX-License-Identifier: MIT */
#include "model/setup/bench_goal.h"
#include "sheet/sheet_by_string.h"
#include "sheet/sheet_say.h"
#include "sheet/sheet_state.h"

/* The readings as found and as left, against the targets. */

/* A row of the table of readings that are not per string. */
struct single {
    struct sheet_measure measure;
    enum bench_end end;
    struct maybe found, left, wanted;
};

/* Those rows; whether any has a target, and whether any is read at the saddle. */
struct singles_table {
    struct single single[END_COUNT_ * ROW_COUNT_];
    int count;
    bool wanted, saddle;
};

static void find_single(const struct sheet_maker *maker, int id, enum bench_end end,
                        struct singles_table *table)
{
    struct single single = {.measure = sheet_measure_of(maker, id), .end = end};
    const struct bench_row *row = single.measure.row;

    single.found = sheet_reading_of(maker, &maker->found, row, end, 0);
    single.left = sheet_reading_of(maker, &maker->left, row, end, 0);
    if (!single.found.given && !(sheet_has_both(maker) && single.left.given))
        return;
    single.wanted = row->goal == GOAL_LEAST ? maybe_given(maker->left.setup.exposure_low_mm)
                                            : bench_goal_at(row, maker->record, end);
    table->wanted = table->wanted || single.wanted.given;
    table->saddle = table->saddle || row->fret == AT_SADDLE;
    table->single[table->count++] = single;
}

static void find_singles(const struct sheet_maker *maker, struct singles_table *ret_table)
{
    *ret_table = (struct singles_table){.count = 0};
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct bench_row *row = bench_row_in(&maker->left.setup.outfit, id);

        if (bench_row_by_string(row))
            continue;
        find_single(maker, id, END_BASS, ret_table);
        if (bench_row_has_ends(row))
            find_single(maker, id, END_TREBLE, ret_table);
    }
}

static void add_single(struct sheet_maker *maker, const struct single *single, bool wanted)
{
    const struct derived *last =
        sheet_has_both(maker) && single->left.given ? &maker->left : &maker->found;
    char memory[80];
    struct strbuf name = STRBUF(memory);

    sheet_add_measure_name(maker, &single->measure, single->end, &name);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    sheet_add_reading(maker, &single->measure, "", single->found);
    if (sheet_has_both(maker))
        sheet_add_reading(maker, &single->measure, "", single->left);
    if (!wanted)
        return;
    sheet_add_reading(maker, &single->measure,
                      single->measure.row->goal == GOAL_LEAST ? "over " : "", single->wanted);
    const struct maybe *read = last == &maker->left ? &single->left : &single->found;
    struct sheet_spread spread = {.over_mm = 0};
    if (single->measure.row->goal == GOAL_LEAST) {
        sheet_add_end_state(maker, last, single->end, read);
        return;
    }
    sheet_spread_widen(&spread, read, &single->wanted);
    sheet_add_state(maker, last, single->measure.id, &spread);
}

static void begin_singles(struct sheet_maker *maker, bool saddle, bool wanted)
{
    const bool blank = maker->left.setup.bridge == BRIDGE_BLANK;
    const bool both = sheet_has_both(maker);

    if (wanted)
        sheet_begin_table(maker->sheet, both ? "lrrrl" : "lrrl");
    else
        sheet_begin_table(maker->sheet, both ? "lrr" : "lr");
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, !saddle ? "neck"
                                 : blank ? "neck, saddle over bridge"
                                         : "neck, saddle travel left");
    sheet_add_cell(maker->sheet, "as found");
    if (both)
        sheet_add_cell(maker->sheet, "as left");
    if (!wanted)
        return;
    sheet_add_cell(maker->sheet, "target");
    sheet_add_cell(maker->sheet, "state");
}

static void add_singles(struct sheet_maker *maker, const struct singles_table *table)
{
    begin_singles(maker, table->saddle, table->wanted);
    for (int i = 0; i < table->count; i++)
        add_single(maker, &table->single[i], table->wanted);
}

static void add_precision(struct sheet_maker *maker, bool strings)
{
    const struct setup *setup = &maker->left.setup;
    char memory[256];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "Read in steps of ");
    if (setup->outfit.lap) {
        sheet_say_length(&text, setup->rule_step_mm, &maker->ask->units, MEASURE_RULE);
        strbuf_add_char(&text, '.');
        sheet_add_text(maker->sheet, SHEET_SMALL, memory);
        return;
    }
    sheet_say_length(&text, setup->feeler_step_mm, &maker->ask->units, MEASURE_FEELER);
    strbuf_add(&text, ", action and saddle of ");
    sheet_say_length(&text, setup->rule_step_mm, &maker->ask->units, MEASURE_RULE);
    strbuf_add_char(&text, '.');
    if (maker->says_now)
        strbuf_add(&text,
                   " Good now, high now: what is still to be done changes it; a gap over fret 1 "
                   "follows the action.");
    if (strings && setup->nut_method == NUT_HELD_3)
        strbuf_add(&text, " Gaps were read with the string held at fret 3 and worked out for the "
                          "open string.");
    sheet_add_text(maker->sheet, SHEET_SMALL, memory);
}

/* Of readings that no work is due on. The estimate says the second itself. */
static void add_judgement(struct sheet_maker *maker)
{
    if (maker->says_off && maker->goes_back)
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       "By what was measured, nothing asks for work.");
    if (!maker->says_off)
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       maker->left.setup.outfit.lap
                           ? "The strings stand as high as is wanted, as far as the gauges tell."
                           : "Relief, gaps and action are where they are wanted, as far as the "
                             "gauges tell.");
}

void sheet_make_readings(struct sheet_maker *maker)
{
    struct singles_table singles;
    struct sheet_by_string strings;

    find_singles(maker, &singles);
    sheet_find_by_string(maker, &strings);
    if (maker->last == 0 || (singles.count == 0 && strings.columns == 0)) {
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       maker->visit > 0 ? "No set-up readings were taken in this visit."
                                        : "Nothing has been measured on this instrument yet.");
        sheet_add_heard(maker);
        return;
    }
    sheet_add_heading(maker->sheet, sheet_has_both(maker) ? "As found, as left" : "As found");
    sheet_make_side_view(maker);
    if (singles.count > 0)
        add_singles(maker, &singles);
    if (strings.columns > 0)
        sheet_add_by_string(maker, &strings);
    if (sheet_is_on_target(maker))
        add_judgement(maker);
    sheet_add_heard(maker);
    add_precision(maker, strings.columns > 0);
}
