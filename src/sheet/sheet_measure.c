/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_measure.h"

#include "model/reading/work_since.h"
#include "sheet/sheet_say.h"

struct sheet_measure sheet_measure_of(const struct sheet_maker *maker, int id)
{
    const struct bench_row *row = bench_row_in(&maker->left.setup.outfit, id);

    return (struct sheet_measure){
        .id = (enum bench_row_id)id, .row = row, .gauge = field_get(row->field[END_BASS])->measure};
}

/* The moves that change what a row reads: the relief only the rod does, and what is left of a
 * saddle only work on it. */
static unsigned moves_of(const struct bench_row *row)
{
    if (row->goal == GOAL_LEAST)
        return MOVE_BIT(MOVE_SADDLE);
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

struct maybe sheet_reading_of(const struct sheet_maker *maker, const struct derived *derived,
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

void sheet_add_measure_name(const struct sheet_maker *maker, const struct sheet_measure *measure,
                            enum bench_end end, struct strbuf *out)
{
    strbuf_add(out, measure->row->sheet[end]);
    if (measure->row->fret > 0)
        strbuf_addf(out, " %s %d", outfit_fret_noun(&maker->left.setup.outfit), measure->row->fret);
    bench_row_add_place(measure->row, &maker->left.setup.outfit, &maker->left.setup.board, out);
    strbuf_add(out, ", ");
    sheet_say_units(out, &maker->ask->units, measure->gauge);
}

void sheet_add_reading(const struct sheet_maker *maker, const struct sheet_measure *measure,
                       const char *before, struct maybe read)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);

    if (read.given) {
        strbuf_add(&text, before);
        sheet_say_bare(&text, read.value, &maker->ask->units, measure->gauge);
    }
    sheet_add_cell(maker->sheet, memory);
}
