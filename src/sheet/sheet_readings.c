/* SPDX-License-Identifier: MIT */
#include "model/reading/work_since.h"
#include "model/setup/bench_goal.h"
#include "model/reading/note_name.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"
#include "sheet/sheet_state.h"

/* The readings as found and as left, against the targets. */

/* A row of the bench, and which columns there are of it. */
struct measured {
    enum bench_row_id id;
    const struct bench_row *row;
    enum field_measure gauge;
    bool found, left, wanted;
};

static struct measured measured_of(const struct sheet_maker *maker, int id)
{
    const struct bench_row *row = bench_row_in(&maker->left.setup.outfit, id);

    return (struct measured){
        .id = (enum bench_row_id)id, .row = row, .gauge = field_get(row->field[END_BASS])->measure};
}

/* The moves that change what a row reads: the relief only the rod does. */
static unsigned moves_of(const struct bench_row *row)
{
    return row->forecast == FORECAST_CURVE ? MOVE_BIT(MOVE_RESET) | MOVE_BIT(MOVE_ROD)
                                           : SHEET_HEIGHT_MOVES;
}

/* What an earlier pass of the visit read holds as left, unless work has changed it since. */
static struct maybe still_held(const struct sheet_maker *maker, const struct bench_row *row,
                               enum bench_end end, int string)
{
    const struct place last = place_of(maker->record, maker->visit, maker->last);
    struct place at = last;

    while (place_before(&at) && at.visit == maker->visit) {
        const struct maybe reading =
            record_entered(maker->record, bench_row_key(row, end, at.visit, at.pass, string));

        if (reading.given)
            return work_since(at, last, moves_of(row), string) ? maybe_absent() : reading;
    }
    return maybe_absent();
}

/* The reading of a pass on a string or at an end. */
static struct maybe reading_of(const struct sheet_maker *maker, const struct derived *derived,
                               const struct bench_row *row, enum bench_end end, int string)
{
    const int pass = derived == &maker->left ? maker->last : maker->first;
    const bool by_string = bench_row_by_string(row);
    const struct maybe own =
        record_entered(maker->record, bench_row_key(row, end, maker->visit, pass, string));
    const struct maybe reading =
        own.given || derived != &maker->left ? own : still_held(maker, row, end, string);
    /* A gap read with the string held down on fret 3 is a different one: use the open gap. */
    const bool held = row->read_held && derived->setup.nut_method == NUT_HELD_3 && reading.given;

    /* A relief that was not read at the relief fret is derived from readings at other frets. */
    if (row->figure != FIGURE_COUNT_ && (held || (!by_string && !reading.given)))
        return figures_get(&derived->figures, row->figure, by_string ? string : 0);
    return reading;
}

static bool any_read(const struct sheet_maker *maker, const struct derived *derived,
                     const struct bench_row *row)
{
    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (reading_of(maker, derived, row, END_BASS, s).given)
            return true;
    return false;
}

static struct maybe wanted_of(const struct sheet_maker *maker, const struct bench_row *row,
                              int string)
{
    const struct setup *setup = &maker->left.setup;

    if (row->field[END_BASS] == FIELD_NUT_GAP && !outfit_has_slot(&setup->outfit, string))
        return maybe_absent();
    return bench_goal_on(row, maker->record, setup, string);
}

static bool any_wanted(const struct sheet_maker *maker, const struct bench_row *row)
{
    for (int s = 1; s <= maker->left.setup.board.strings; s++)
        if (wanted_of(maker, row, s).given)
            return true;
    return false;
}

static void find_columns(const struct sheet_maker *maker, struct measured *measured)
{
    const struct bench_row *row = measured->row;

    measured->found = any_read(maker, &maker->found, row);
    measured->left = sheet_has_both(maker) && any_read(maker, &maker->left, row);
    measured->wanted = (measured->found || measured->left) && any_wanted(maker, row);
}

static int columns_of(const struct measured *measured)
{
    return measured->found + measured->left + measured->wanted;
}

static void add_bare(const struct sheet_maker *maker, const struct measured *measured,
                     struct maybe mm)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (mm.given)
        sheet_say_bare(&text, mm.value, &maker->ask->units, measured->gauge);
    sheet_add_cell(maker->sheet, memory);
}

static void add_string_cells(const struct sheet_maker *maker, const struct measured *measured,
                             int string)
{
    const struct bench_row *row = measured->row;

    if (measured->found)
        add_bare(maker, measured, reading_of(maker, &maker->found, row, END_BASS, string));
    if (measured->left)
        add_bare(maker, measured, reading_of(maker, &maker->left, row, END_BASS, string));
    if (measured->wanted)
        add_bare(maker, measured, wanted_of(maker, row, string));
}

/* "action at fret 12, /64 in (mm)" */
static void add_name(const struct sheet_maker *maker, const struct measured *measured,
                     enum bench_end end, struct strbuf *out)
{
    strbuf_add(out, measured->row->sheet[end]);
    if (measured->row->fret > 0)
        strbuf_addf(out, " %s %d", outfit_fret_noun(&maker->left.setup.outfit),
                    measured->row->fret);
    bench_row_add_place(measured->row, &maker->left.setup.outfit, &maker->left.setup.board, out);
    strbuf_add(out, ", ");
    sheet_say_units(out, &maker->ask->units, measured->gauge);
}

/* Adds to a row of the head: one cell over all columns of a measure, or one over each. */
static void add_group(const struct sheet_maker *maker, const struct measured *measured)
{
    char memory[80];
    struct strbuf text = STRBUF(memory);

    if (columns_of(measured) == 0)
        return;
    add_name(maker, measured, END_BASS, &text);
    sheet_add_span(maker->sheet, columns_of(measured), memory);
}

static void add_names(const struct sheet_maker *maker, const struct measured *measured)
{
    if (measured->found)
        sheet_add_cell(maker->sheet, "as found");
    if (measured->left)
        sheet_add_cell(maker->sheet, "as left");
    if (measured->wanted)
        sheet_add_cell(maker->sheet, "target");
}

static void add_string_state(struct sheet_maker *maker, const struct derived *derived,
                             const struct measured *measured)
{
    struct sheet_spread spread = {.over_mm = 0};

    for (int s = 1; s <= maker->left.setup.board.strings; s++) {
        const struct maybe read = reading_of(maker, derived, measured->row, END_BASS, s);
        const struct maybe wanted = wanted_of(maker, measured->row, s);

        sheet_spread_widen(&spread, &read, &wanted);
    }
    sheet_add_state(maker, derived, measured->id, &spread);
}

static void add_states(struct sheet_maker *maker, const struct measured *measured)
{
    if (measured->found)
        add_string_state(maker, &maker->found, measured);
    if (measured->left)
        add_string_state(maker, &maker->left, measured);
    if (measured->wanted)
        sheet_add_cell(maker->sheet, NULL);
}

/* The rows with a reading per string, and how many columns they take. */
struct strings_table {
    struct measured measured[ROW_COUNT_];
    int count, columns;
};

static void find_strings(const struct sheet_maker *maker, struct strings_table *ret_table)
{
    *ret_table = (struct strings_table){.count = 0};
    for (int id = 0; id < ROW_COUNT_; id++) {
        struct measured measured = measured_of(maker, id);

        if (!bench_row_by_string(measured.row))
            continue;
        find_columns(maker, &measured);
        /* A row that the page has no room for is left out whole. */
        if (1 + ret_table->columns + columns_of(&measured) > SHEET_COLUMNS_MAX)
            continue;
        ret_table->columns += columns_of(&measured);
        ret_table->measured[ret_table->count++] = measured;
    }
}

static void add_string(const struct sheet_maker *maker, const struct strings_table *table,
                       int string)
{
    char memory[32];
    struct strbuf name = STRBUF(memory);

    note_name_add_read(&name, maker->record, &maker->left.setup.outfit, string);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    for (int i = 0; i < table->count; i++)
        add_string_cells(maker, &table->measured[i], string);
}

static void add_strings(struct sheet_maker *maker, const struct strings_table *table)
{
    const struct outfit *outfit = &maker->left.setup.outfit;
    char align[SHEET_COLUMNS_MAX + 1] = "l";

    for (int i = 1; i <= table->columns; i++)
        align[i] = 'r';
    sheet_begin_table(maker->sheet, align);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, NULL);
    for (int i = 0; i < table->count; i++)
        add_group(maker, &table->measured[i]);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, outfit_noun(outfit, outfit->read_as[outfit->strings]));
    for (int i = 0; i < table->count; i++)
        add_names(maker, &table->measured[i]);
    for (int s = outfit->strings; s >= 1; s--)
        if (outfit_is_read(outfit, s))
            add_string(maker, table, s);
    sheet_begin_row(maker->sheet, SHEET_ROW_LAST);
    sheet_add_cell(maker->sheet, "state");
    for (int i = 0; i < table->count; i++)
        add_states(maker, &table->measured[i]);
}

/* A row of the table of readings that are not per string. */
struct single {
    struct measured measured;
    enum bench_end end;
    struct maybe found, left, wanted;
};

/* Those rows; whether any has a target, and whether any is read at the saddle. */
struct singles_table {
    struct single single[END_COUNT_ * ROW_COUNT_];
    int count;
    bool wanted, saddle;
};

static void add_entered(const struct sheet_maker *maker, const struct single *single,
                        const struct maybe *value, const char *before)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (value->given) {
        strbuf_add(&text, before);
        sheet_say_bare(&text, value->value, &maker->ask->units, single->measured.gauge);
    }
    sheet_add_cell(maker->sheet, memory);
}

static void find_single(const struct sheet_maker *maker, int id, enum bench_end end,
                        struct singles_table *table)
{
    struct single single = {.measured = measured_of(maker, id), .end = end};
    const struct bench_row *row = single.measured.row;

    single.found = reading_of(maker, &maker->found, row, end, 0);
    single.left = reading_of(maker, &maker->left, row, end, 0);
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

    add_name(maker, &single->measured, single->end, &name);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    add_entered(maker, single, &single->found, "");
    if (sheet_has_both(maker))
        add_entered(maker, single, &single->left, "");
    if (!wanted)
        return;
    add_entered(maker, single, &single->wanted,
                single->measured.row->goal == GOAL_LEAST ? "over " : "");
    const struct maybe *read = last == &maker->left ? &single->left : &single->found;
    struct sheet_spread spread = {.over_mm = 0};
    if (single->measured.row->goal == GOAL_LEAST) {
        sheet_add_end_state(maker, last, single->end, read);
        return;
    }
    sheet_spread_widen(&spread, read, &single->wanted);
    sheet_add_state(maker, last, single->measured.id, &spread);
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
    struct strings_table strings;

    find_singles(maker, &singles);
    find_strings(maker, &strings);
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
        add_strings(maker, &strings);
    if (sheet_is_on_target(maker))
        add_judgement(maker);
    sheet_add_heard(maker);
    add_precision(maker, strings.columns > 0);
}
