/* SPDX-License-Identifier: MIT */
#include "words/row_state.h"
#include "model/note_name.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_say.h"

/* The readings as found and as left, against the targets. */

/* One measure of each string. */
struct measured {
    enum board_row row;
    enum field_measure gauge;
    const char *name;
    bool found, left, wanted; /* which columns there are */
};

static struct entered reading_of(const struct derived *derived, enum board_row row, int string)
{
    const struct setup *setup = &derived->setup;
    struct entered gap = setup->nut_gap_mm[string];

    if (row == ROW_ACTION)
        return setup->action_mm[string];
    /* A gap read with the string held down on fret 3 is a different one: use the open gap. */
    if (setup->nut_method == NUT_HELD_3 && gap.given)
        gap.given = figures_get(&derived->figures, FIGURE_NUT_GAP, string, &gap.value);
    return gap;
}

static bool wanted_of(const struct derived *derived, enum board_row row, int string, double *ret_mm)
{
    const struct setup *setup = &derived->setup;
    const struct entered *bass = &setup->gap_target_bass_mm, *treble = &setup->gap_target_treble_mm;

    if (row == ROW_ACTION) {
        bass = &setup->action_target_bass_mm;
        treble = &setup->action_target_treble_mm;
    }
    return setup_target_at(bass, treble, setup->board.strings, string, ret_mm);
}

static bool any_read(const struct derived *derived, enum board_row row)
{
    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (reading_of(derived, row, s).given)
            return true;
    return false;
}

static bool any_wanted(const struct derived *derived, enum board_row row)
{
    double unused;

    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (wanted_of(derived, row, s, &unused))
            return true;
    return false;
}

static void find_columns(const struct sheet_maker *maker, struct measured *measured)
{
    measured->found = any_read(&maker->found, measured->row);
    measured->left = sheet_has_both(maker) && any_read(&maker->left, measured->row);
    measured->wanted =
        (measured->found || measured->left) && any_wanted(&maker->left, measured->row);
}

static int columns_of(const struct measured *measured)
{
    return measured->found + measured->left + measured->wanted;
}

static void add_bare(const struct sheet_maker *maker, const struct measured *measured, bool given,
                     double mm)
{
    char memory[48];
    struct strbuf text = STRBUF(memory);

    if (given)
        sheet_say_bare(&text, mm, &maker->ask->units, measured->gauge);
    sheet_add_cell(maker->sheet, memory);
}

static void add_string_cells(const struct sheet_maker *maker, const struct measured *measured,
                             int string)
{
    const struct entered found = reading_of(&maker->found, measured->row, string);
    const struct entered left = reading_of(&maker->left, measured->row, string);
    double wanted = 0;

    if (measured->found)
        add_bare(maker, measured, found.given, found.value);
    if (measured->left)
        add_bare(maker, measured, left.given, left.value);
    if (measured->wanted) {
        const bool given = wanted_of(&maker->left, measured->row, string, &wanted);

        add_bare(maker, measured, given, wanted);
    }
}

/* Adds to a row of the head: one cell over all columns of a measure, or one over each. */
static void add_group(const struct sheet_maker *maker, const struct measured *measured)
{
    char memory[80];
    struct strbuf text = STRBUF(memory);

    if (columns_of(measured) == 0)
        return;
    strbuf_add(&text, measured->name);
    if (measured->row == ROW_ACTION && maker->left.setup.board.action_fret > 0)
        strbuf_addf(&text, " at fret %d", maker->left.setup.board.action_fret);
    strbuf_add(&text, ", ");
    sheet_say_units(&text, &maker->ask->units, measured->gauge);
    sheet_add_span(maker->sheet, columns_of(measured), memory);
}

static void add_names(const struct sheet_maker *maker, const struct measured *measured)
{
    if (measured->found)
        sheet_add_cell(maker->sheet, "as found");
    if (measured->left)
        sheet_add_cell(maker->sheet, "as left");
    if (measured->wanted)
        sheet_add_cell(maker->sheet, "wanted");
}

static const char *state_word(const struct sheet_maker *maker, const struct derived *derived,
                              enum board_row row)
{
    struct row_state state;

    row_state_find(derived, &maker->ask->units, row, &state);
    return row_verdict_word(state.verdict);
}

static void add_states(const struct sheet_maker *maker, const struct measured *measured)
{
    if (measured->found)
        sheet_add_cell(maker->sheet, state_word(maker, &maker->found, measured->row));
    if (measured->left)
        sheet_add_cell(maker->sheet, state_word(maker, &maker->left, measured->row));
    if (measured->wanted)
        sheet_add_cell(maker->sheet, NULL);
}

static void add_string(const struct sheet_maker *maker, const struct measured *gap,
                       const struct measured *action, int string)
{
    char memory[32];
    struct strbuf name = STRBUF(memory);

    note_name_add_string(&name, maker->record, string);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    add_string_cells(maker, gap, string);
    add_string_cells(maker, action, string);
}

static void add_strings(struct sheet_maker *maker)
{
    struct measured gap = {.row = ROW_GAP, .gauge = MEASURE_FEELER, .name = "gap over fret 1"};
    struct measured action = {.row = ROW_ACTION, .gauge = MEASURE_RULE, .name = "action"};
    char align[SHEET_COLUMNS_MAX + 1] = "l";

    find_columns(maker, &gap);
    find_columns(maker, &action);
    const int columns = columns_of(&gap) + columns_of(&action);
    if (columns == 0)
        return;
    for (int i = 1; i <= columns; i++)
        align[i] = 'r';
    sheet_begin_table(maker->sheet, align);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, NULL);
    add_group(maker, &gap);
    add_group(maker, &action);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, "string");
    add_names(maker, &gap);
    add_names(maker, &action);
    for (int s = maker->left.setup.board.strings; s >= 1; s--)
        add_string(maker, &gap, &action, s);
    sheet_begin_row(maker->sheet, SHEET_ROW_LAST);
    sheet_add_cell(maker->sheet, "state");
    add_states(maker, &gap);
    add_states(maker, &action);
}

enum { SINGLES = 3 };

/* A row of the table of readings that are not per string. */
struct single {
    const char *name;
    enum field_measure gauge;
    struct entered found, left, wanted;
    const char *before_wanted;
    enum board_row row;
};

static void add_entered(const struct sheet_maker *maker, const struct single *single,
                        const struct entered *value, const char *before)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (value->given) {
        strbuf_add(&text, before);
        sheet_say_bare(&text, value->value, &maker->ask->units, single->gauge);
    }
    sheet_add_cell(maker->sheet, memory);
}

static bool is_shown(const struct sheet_maker *maker, const struct single *single)
{
    return single->found.given || (sheet_has_both(maker) && single->left.given);
}

static void add_single(const struct sheet_maker *maker, const struct single *single, bool wanted)
{
    const struct derived *last =
        sheet_has_both(maker) && single->left.given ? &maker->left : &maker->found;
    char memory[80];
    struct strbuf name = STRBUF(memory);

    strbuf_addf(&name, "%s, ", single->name);
    sheet_say_units(&name, &maker->ask->units, single->gauge);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    add_entered(maker, single, &single->found, "");
    if (sheet_has_both(maker))
        add_entered(maker, single, &single->left, "");
    if (!wanted)
        return;
    add_entered(maker, single, &single->wanted, single->before_wanted);
    sheet_add_cell(maker->sheet, state_word(maker, last, single->row));
}

/* The relief of a pass as read at the relief fret, else as derived from readings at other frets. */
static struct entered relief_of(const struct sheet_maker *maker, int pass)
{
    const struct derived *derived = pass == maker->last ? &maker->left : &maker->found;
    struct entered relief =
        record_entered(maker->record, reading_key_pass(FIELD_RELIEF, maker->visit, pass));

    if (!relief.given)
        relief.given = figures_get(&derived->figures, FIGURE_RELIEF, 0, &relief.value);
    return relief;
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
    sheet_add_cell(maker->sheet, "wanted");
    sheet_add_cell(maker->sheet, "state");
}

static void add_singles(struct sheet_maker *maker)
{
    const struct setup *found = &maker->found.setup, *left = &maker->left.setup;
    const struct entered least = {.value = left->exposure_min_mm, .given = true};
    char memory[48];
    struct strbuf name = STRBUF(memory);

    strbuf_add(&name, "relief");
    if (left->board.has_relief)
        strbuf_addf(&name, " at fret %d", left->board.relief_fret);
    const struct single singles[SINGLES] = {
        {memory, MEASURE_FEELER, relief_of(maker, maker->first), relief_of(maker, maker->last),
         left->relief_target_mm, "", ROW_RELIEF},
        {"saddle, bass", MEASURE_DEPTH, found->exposure_bass_mm, left->exposure_bass_mm, least,
         "over ", ROW_EXPOSURE},
        {"saddle, treble", MEASURE_DEPTH, found->exposure_treble_mm, left->exposure_treble_mm,
         least, "over ", ROW_EXPOSURE},
    };
    bool wanted = false;

    for (size_t i = 0; i < SINGLES; i++)
        wanted = wanted || (is_shown(maker, &singles[i]) && singles[i].wanted.given);
    begin_singles(maker, is_shown(maker, &singles[1]) || is_shown(maker, &singles[2]), wanted);
    for (size_t i = 0; i < SINGLES; i++)
        if (is_shown(maker, &singles[i]))
            add_single(maker, &singles[i], wanted);
}

static bool any_single(const struct sheet_maker *maker, int pass, const struct setup *setup)
{
    return relief_of(maker, pass).given || setup->exposure_bass_mm.given ||
           setup->exposure_treble_mm.given;
}

static void add_precision(struct sheet_maker *maker, bool strings)
{
    const struct setup *setup = &maker->left.setup;
    char memory[256];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, "Read in steps of ");
    sheet_say_length(&text, setup->feeler_step_mm, &maker->ask->units, MEASURE_FEELER);
    strbuf_add(&text, ", action and saddle of ");
    sheet_say_length(&text, setup->rule_step_mm, &maker->ask->units, MEASURE_RULE);
    strbuf_add_char(&text, '.');
    if (strings)
        strbuf_add(&text, " A gap is judged by what it is once the action is right.");
    if (strings && setup->nut_method == NUT_HELD_3)
        strbuf_add(&text, " Gaps were read with the string held at fret 3 and worked out for the "
                          "open string.");
    sheet_add_text(maker->sheet, SHEET_SMALL, memory);
}

void sheet_make_readings(struct sheet_maker *maker)
{
    const bool singles = any_single(maker, maker->first, &maker->found.setup) ||
                         any_single(maker, maker->last, &maker->left.setup);
    const bool strings = any_read(&maker->found, ROW_GAP) || any_read(&maker->left, ROW_GAP) ||
                         any_read(&maker->found, ROW_ACTION) || any_read(&maker->left, ROW_ACTION);

    if (maker->last == 0 || (!singles && !strings)) {
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       maker->visit > 0 ? "No set-up readings were taken in this visit."
                                        : "Nothing has been measured on this instrument yet.");
        return;
    }
    sheet_add_heading(maker->sheet, sheet_has_both(maker) ? "As found, as left" : "As found");
    sheet_make_side_view(maker);
    if (singles)
        add_singles(maker);
    if (strings)
        add_strings(maker);
    if (sheet_is_on_target(maker))
        sheet_add_text(maker->sheet, SHEET_PARAGRAPH,
                       "Relief, gaps and action are where they are wanted, as far as the gauges "
                       "tell.");
    add_precision(maker, strings);
}
