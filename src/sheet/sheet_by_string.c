/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_by_string.h"

#include "model/reading/note_name.h"
#include "model/setup/bench_goal.h"
#include "sheet/sheet_state.h"

static bool any_read(const struct sheet_maker *maker, const struct derived *derived,
                     const struct bench_row *row)
{
    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (sheet_reading_of(maker, derived, row, END_BASS, s).given)
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

static void find_columns(const struct sheet_maker *maker, struct sheet_group *group)
{
    const struct bench_row *row = group->measure.row;

    group->found = any_read(maker, &maker->found, row);
    group->left = sheet_has_both(maker) && any_read(maker, &maker->left, row);
    group->wanted = (group->found || group->left) && any_wanted(maker, row);
}

static int columns_of(const struct sheet_group *group)
{
    return group->found + group->left + group->wanted;
}

static void add_string_cells(const struct sheet_maker *maker, const struct sheet_group *group,
                             int string)
{
    const struct bench_row *row = group->measure.row;

    if (group->found)
        sheet_add_reading(maker, &group->measure, "",
                          sheet_reading_of(maker, &maker->found, row, END_BASS, string));
    if (group->left)
        sheet_add_reading(maker, &group->measure, "",
                          sheet_reading_of(maker, &maker->left, row, END_BASS, string));
    if (group->wanted)
        sheet_add_reading(maker, &group->measure, "", wanted_of(maker, row, string));
}

/* Adds to a row of the head: one cell over all columns of a measure, or one over each. */
static void add_group(const struct sheet_maker *maker, const struct sheet_group *group)
{
    char memory[80];
    struct strbuf text = STRBUF(memory);

    if (columns_of(group) == 0)
        return;
    sheet_add_measure_name(maker, &group->measure, END_BASS, &text);
    sheet_add_span(maker->sheet, columns_of(group), memory);
}

static void add_names(const struct sheet_maker *maker, const struct sheet_group *group)
{
    if (group->found)
        sheet_add_cell(maker->sheet, "as found");
    if (group->left)
        sheet_add_cell(maker->sheet, "as left");
    if (group->wanted)
        sheet_add_cell(maker->sheet, "target");
}

static void add_string_state(struct sheet_maker *maker, const struct derived *derived,
                             const struct sheet_group *group)
{
    struct sheet_spread spread = {.over_mm = 0};

    for (int s = 1; s <= maker->left.setup.board.strings; s++) {
        const struct maybe read = sheet_reading_of(maker, derived, group->measure.row, END_BASS, s);
        const struct maybe wanted = wanted_of(maker, group->measure.row, s);

        sheet_spread_widen(&spread, &read, &wanted);
    }
    sheet_add_state(maker, derived, group->measure.id, &spread);
}

static void add_states(struct sheet_maker *maker, const struct sheet_group *group)
{
    if (group->found)
        add_string_state(maker, &maker->found, group);
    if (group->left)
        add_string_state(maker, &maker->left, group);
    if (group->wanted)
        sheet_add_cell(maker->sheet, NULL);
}

void sheet_find_by_string(const struct sheet_maker *maker, struct sheet_by_string *ret_table)
{
    *ret_table = (struct sheet_by_string){.count = 0};
    for (int id = 0; id < ROW_COUNT_; id++) {
        struct sheet_group group = {.measure = sheet_measure_of(maker, id)};

        if (!bench_row_by_string(group.measure.row))
            continue;
        find_columns(maker, &group);
        /* A row that the page has no room for is left out whole. */
        if (1 + ret_table->columns + columns_of(&group) > SHEET_COLUMNS_MAX)
            continue;
        ret_table->columns += columns_of(&group);
        ret_table->group[ret_table->count++] = group;
    }
}

static void add_string(const struct sheet_maker *maker, const struct sheet_by_string *table,
                       int string)
{
    char memory[32];
    struct strbuf name = STRBUF(memory);

    note_name_add_read(&name, maker->record, &maker->left.setup.outfit, string);
    sheet_begin_row(maker->sheet, SHEET_ROW_PLAIN);
    sheet_add_cell(maker->sheet, memory);
    for (int i = 0; i < table->count; i++)
        add_string_cells(maker, &table->group[i], string);
}

void sheet_add_by_string(struct sheet_maker *maker, const struct sheet_by_string *table)
{
    const struct outfit *outfit = &maker->left.setup.outfit;
    char align[SHEET_COLUMNS_MAX + 1] = "l";

    for (int i = 1; i <= table->columns; i++)
        align[i] = 'r';
    sheet_begin_table(maker->sheet, align);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, NULL);
    for (int i = 0; i < table->count; i++)
        add_group(maker, &table->group[i]);
    sheet_begin_row(maker->sheet, SHEET_ROW_HEAD);
    sheet_add_cell(maker->sheet, outfit_noun(outfit, outfit->read_as[outfit->strings]));
    for (int i = 0; i < table->count; i++)
        add_names(maker, &table->group[i]);
    for (int s = outfit->strings; s >= 1; s--)
        if (outfit_is_read(outfit, s))
            add_string(maker, table, s);
    sheet_begin_row(maker->sheet, SHEET_ROW_LAST);
    sheet_add_cell(maker->sheet, "state");
    for (int i = 0; i < table->count; i++)
        add_states(maker, &table->group[i]);
}
