/* SPDX-License-Identifier: MIT */
#include "leaf/history/history.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "words/amount.h"
#include "model/reading/moment.h"
#include "model/derive/derive_climate.h"
#include "model/setup/moves.h"
#include "model/reading/record_access.h"
#include "model/reading/place.h"

struct history_row_info {
    const char *name;
    enum field_id field; /* the row has its unit */
    enum figure_id figure;
};

static struct history_row_info info_of(const struct outfit *outfit, enum history_row row)
{
    static const struct history_row_info others[HISTORY_ROW_COUNT_ - HISTORY_TURN] = {
        [HISTORY_TURN - HISTORY_TURN] = {"rod turned", FIELD_ROD_TURN, FIGURE_RELIEF},
        [HISTORY_HUMIDITY - HISTORY_TURN] = {"humidity", FIELD_HUMIDITY, FIGURE_EMC},
        [HISTORY_TEMPERATURE - HISTORY_TURN] = {"temperature", FIELD_TEMPERATURE, FIGURE_EMC},
        [HISTORY_EMC - HISTORY_TURN] = {"EMC", FIELD_HUMIDITY, FIGURE_EMC},
    };
    const struct bench_row *bench = history_bench_row(outfit, row);

    if (!bench)
        return others[row - HISTORY_TURN];
    return (struct history_row_info){bench->label, bench->field[END_BASS],
                                     bench->figure != FIGURE_COUNT_ ? bench->figure
                                                                    : bench->explained[END_BASS]};
}

const struct bench_row *history_bench_row(const struct outfit *outfit, enum history_row row)
{
    return row < HISTORY_TURN ? bench_row_in(outfit, (int)row) : NULL;
}

static struct history_value of_entered(struct maybe entered)
{
    return (struct history_value){.value = entered.value, .given = entered.given};
}

/* What the bench's rows need of a pass. */
struct pass_state {
    const struct record *record;
    struct setup setup;
    struct figures figures;
};

/* A row's figure, or if it is not known the reading behind it. */
static struct history_value read_row(const struct pass_state *state, const struct bench_row *row,
                                     enum bench_end end, int string,
                                     const struct history_pass *pass)
{
    const bool has_figure = row->figure != FIGURE_COUNT_;
    const struct figure *figure =
        has_figure ? &state->figures.at[row->figure][bench_row_by_string(row) ? string : 0] : NULL;
    const struct maybe reading =
        record_entered(state->record, bench_row_key(row, end, pass->visit, pass->pass, string));

    if (has_figure && figure->known != KNOWN_ABSENT)
        return (struct history_value){
            .value = figure->value, .given = true, .taken = figure->known == KNOWN_INTERPOLATED};
    /* Held down on fret 3 the reading is another gap; only the figure is the open one. */
    if (row->read_held && state->setup.nut_method != NUT_OPEN)
        return of_entered(maybe_absent());
    return of_entered(reading);
}

static void read_sides(const struct pass_state *state, const struct bench_row *row,
                       const struct history_pass *pass, struct history_value *ret_sides)
{
    const int strings = state->setup.board.strings;
    const bool by_string = bench_row_by_string(row);
    /* Of a course one string is read for both. */
    const int bass = strings > 0 ? state->setup.outfit.read_as[strings] : 0;

    if (!by_string || strings > 0)
        ret_sides[HISTORY_BASS] = read_row(state, row, END_BASS, bass, pass);
    if (by_string ? strings > 1 : bench_row_has_ends(row))
        ret_sides[HISTORY_TREBLE] = read_row(state, row, END_TREBLE, 1, pass);
}

static void read_pass(const struct record *record, struct history_pass *pass)
{
    const struct place place = place_of(record, pass->visit, pass->pass);
    struct pass_state state = {.record = record};
    struct findings unused = {.count = 0};

    setup_read(&state.setup, place, &unused);
    moves_solve(&state.setup, NULL, &state.figures, NULL, NULL);
    for (int row = 0; row < HISTORY_TURN; row++)
        read_sides(&state, bench_row_in(&state.setup.outfit, row), pass, pass->value[row]);
    pass->value[HISTORY_TURN][HISTORY_BASS] = of_entered(place_read(place, FIELD_ROD_TURN));
}

static void read_climate(const struct record *record, struct history_pass *pass)
{
    pass->value[HISTORY_HUMIDITY][HISTORY_BASS] =
        of_entered(record_entered(record, reading_key_visit(FIELD_HUMIDITY, pass->visit)));
    pass->value[HISTORY_TEMPERATURE][HISTORY_BASS] =
        of_entered(record_entered(record, reading_key_visit(FIELD_TEMPERATURE, pass->visit)));
    pass->value[HISTORY_EMC][HISTORY_BASS] = of_entered(derive_emc(record, pass->visit));
}

/* The next free place; if there is none, the first pass makes room. */
static struct pass_place *next_place(struct history_index *index)
{
    if (index->count == HISTORY_PASSES_MAX) {
        memmove(index->passes, index->passes + 1, sizeof index->passes - sizeof index->passes[0]);
        index->earlier++;
        index->count--;
    }
    return &index->passes[index->count++];
}

void history_index_make(const struct record *record, struct history_index *ret_index)
{
    struct place place = place_of(record, 0, 0);

    ret_index->count = ret_index->earlier = 0;
    while (place_next(&place))
        *next_place(ret_index) = pass_place_of(place.visit, place.pass);
}

int history_index_find(const struct history_index *index, struct pass_place pass)
{
    for (int i = 0; i < index->count; i++)
        if (pass_place_is_same(index->passes[i], pass))
            return i;
    return -1;
}

void history_make(const struct record *record, const struct history_index *index,
                  struct history *ret_history)
{
    struct rod_walk turns = rod_walk_of(record);
    struct findings unused = {.count = 0};

    outfit_read(&ret_history->outfit, record, 0);
    ret_history->count = index->count;
    ret_history->earlier = index->earlier;
    for (int i = 0; i < index->count; i++) {
        const struct pass_place pass = index->passes[i];
        const struct reading_key time = reading_key_pass(FIELD_PASS_TIME, pass.visit, pass.pass);
        struct history_pass *at = &ret_history->passes[i];

        *at = (struct history_pass){
            .visit = pass.visit, .pass = pass.pass, .day = moment_of(record, &time)};
        read_pass(record, at);
        read_climate(record, at);
        survey_rod_after(&turns, place_of(record, pass.visit, pass.pass), &at->rod, &unused);
    }
    if (index->count > 0)
        next_check_find(record, index->passes[index->count - 1].visit, &ret_history->next_check);
}

static bool is_given(const struct history *history, int row)
{
    for (int i = 0; i < history->count; i++)
        for (int side = 0; side < HISTORY_SIDE_COUNT_; side++)
            if (history->passes[i].value[row][side].given)
                return true;
    return false;
}

bool history_has_row(const struct history *history, enum history_row row)
{
    const struct outfit *outfit = &history->outfit;
    const struct bench_row *bench = history_bench_row(outfit, row);

    /* Before the strings are entered, nothing is asked of them. */
    if (outfit->strings == 0 || is_given(history, (int)row))
        return true;
    return bench ? bench_row_is_asked(bench, outfit)
                 : row != HISTORY_TURN || outfit_asks(outfit, FIELD_ROD_TURN, 0);
}

int history_rows_before(const struct history *history, int row)
{
    int count = 0;

    while (row-- > 0)
        count += history_has_row(history, (enum history_row)row);
    return count;
}

int history_last_visit(const struct history *history, int at)
{
    const int visit = at >= 0 && at < history->count ? history->passes[at].visit : 0;

    for (at--; at >= 0; at--)
        if (history->passes[at].visit < visit)
            return at;
    return -1;
}

bool history_change(const struct history *history, int from, int to, enum history_row row,
                    enum history_side side, double *ret_change)
{
    if (from < 0 || row == HISTORY_TURN)
        return false;
    const struct history_pass *a = &history->passes[from], *b = &history->passes[to];
    if ((row >= HISTORY_HUMIDITY && a->visit == b->visit) || !a->value[row][side].given ||
        !b->value[row][side].given)
        return false;
    *ret_change = b->value[row][side].value - a->value[row][side].value;
    return true;
}

const char *history_row_name(const struct outfit *outfit, enum history_row row)
{
    return info_of(outfit, row).name;
}

enum figure_id history_row_figure(const struct outfit *outfit, enum history_row row)
{
    return info_of(outfit, row).figure;
}

static enum unit unit_of(const struct outfit *outfit, enum history_row row,
                         const struct shop_units *units)
{
    return field_bare_unit(field_get(info_of(outfit, row).field), units);
}

const char *history_row_unit(const struct outfit *outfit, enum history_row row,
                             const struct shop_units *units)
{
    return amount_unit(unit_of(outfit, row, units));
}

bool history_is_length(const struct outfit *outfit, enum history_row row)
{
    return field_get(info_of(outfit, row).field)->quantity == QUANTITY_LENGTH;
}

void history_add(struct strbuf *out, const struct outfit *outfit, enum history_row row,
                 double value, bool change, const struct shop_units *units)
{
    const enum unit unit = unit_of(outfit, row, units);

    if (unit_quantity(unit) == QUANTITY_LENGTH) {
        amount_add(out, value, unit, change);
        return;
    }
    if (row == HISTORY_TURN && fabs(value * 16 - round(value * 16)) < 1e-6) {
        num_format_fraction(value, 16, out);
        return;
    }
    if (change && value > 0)
        strbuf_add_char(out, '+');
    /* A change of temperature has no offset, only its degrees. */
    const double zero = change ? unit_from_pivot(unit, 0) : 0;
    num_format_fixed(unit_from_pivot(unit, value) - zero,
                     row == HISTORY_TURN  ? 2
                     : row == HISTORY_EMC ? 1
                                          : 0,
                     row == HISTORY_TURN, out);
}
