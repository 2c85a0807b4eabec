/* SPDX-License-Identifier: MIT */
#include "leaf/bench/bench_view.h"
#include "leaf/bench/expected.h"
#include "leaf/leaves.h"
#include "model/figure/bench_row.h"
#include "model/reading/work_since.h"

/* What is asked for, and what was read all the same. */
static void lay_strings(const struct leaf_place *place, const struct outfit *outfit,
                        struct route *route, int id)
{
    const struct bench_row *row = bench_row_in(outfit, id);

    for (int s = outfit->strings; s >= 1; s--) {
        const struct reading_key key = bench_row_key(row, END_BASS, place->visit, place->pass, s);

        if (outfit_asks(outfit, row->field[END_BASS], s) || record_get(place->record, &key))
            route_add(route, key, id, outfit_column(outfit, s), s);
    }
}

/* With one string, the exposures at both ends of its saddle are still two cells. */
static int treble_column(const struct outfit *outfit)
{
    const int columns = outfit_read_count(outfit);

    return columns > 1 ? columns - 1 : 1;
}

/* Turns are normally logged on Work when the rod is turned, so Enter skips this cell. */
static void lay_aside(const struct leaf_place *place, const struct outfit *outfit,
                      struct route *route, int id)
{
    const struct bench_row *row = bench_row_in(outfit, id);
    const struct reading_key key = reading_key_pass(row->aside, place->visit, place->pass);

    if (!outfit_asks(outfit, row->aside, 0) && !record_get(place->record, &key))
        return;
    route_add(route, key, id, treble_column(outfit), outfit->read_as[outfit->strings]);
    route_set_aside(route);
}

/* Between the ends, where strings have what the row reads there by themselves. */
static void lay_inner(const struct leaf_place *place, const struct outfit *outfit,
                      struct route *route, int id)
{
    const struct bench_row *row = bench_row_in(outfit, id);

    for (int s = outfit->strings - 1; s > 1 && row->inner != NO_FIELD; s--) {
        const struct reading_key key =
            reading_key_pass_at(row->inner, place->visit, place->pass, s, 0);

        if (!outfit_is_read(outfit, s) || !(outfit_asks(outfit, row->inner, s) ||
                                            (place->record && record_get(place->record, &key))))
            continue;
        route_add(route, key, id, outfit_column(outfit, s), s);
        route_set_aside(route);
    }
}

/* A single reading goes on the bass side; a treble end, or the reading aside, on the treble
 * side. */
static void lay_ends(const struct leaf_place *place, const struct outfit *outfit,
                     struct route *route, int id)
{
    const struct bench_row *row = bench_row_in(outfit, id);
    const int visit = place->visit, pass = place->pass;

    route_add(route, bench_row_key(row, END_BASS, visit, pass, 0), id, 0,
              outfit->read_as[outfit->strings]);
    if (row->aside != NO_FIELD && pass > 1)
        lay_aside(place, outfit, route, id);
    lay_inner(place, outfit, route, id);
    if (bench_row_has_ends(row))
        route_add(route, bench_row_key(row, END_TREBLE, visit, pass, 0), id, treble_column(outfit),
                  1);
}

/* Each row from the bass string to the treble. */
static void lay(const struct leaf_place *place, struct route *route)
{
    struct outfit outfit = place->strings > 0 ? place->outfit : outfit_plain(1);

    outfit.lap = place->outfit.lap;
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct bench_row *row = bench_row_in(&outfit, id);

        if (bench_row_by_string(row))
            lay_strings(place, &outfit, route, id);
        else if (bench_row_is_asked(row, &outfit))
            lay_ends(place, &outfit, route, id);
    }
    route->ends_pass = true;
}

/* At the pass's end: the figure of the first move that is due, else the rod's. */
static enum figure_id find_due_figure(const struct derived *derived)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_open(&derived->moves.move[kind]))
            return move_explained(&derived->setup.outfit, (enum move_kind)kind);
    return move_explained(&derived->setup.outfit, MOVE_ROD);
}

static enum figure_id find_figure(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);

    if (!cell)
        return find_due_figure(app_shown(app));
    const struct bench_row *row = bench_row_in(&app->now.setup.outfit, cell->row);
    /* An inner saddle's travel is short or not by how far it has to go. */
    return cell->key.field == row->inner ? FIGURE_SADDLE_CHANGE
                                         : row->explained[bench_row_end(row, cell->key.field)];
}

/* The rod, slots and saddle move all that stands over a crown, and a levelled crown what is read
 * over it. Which crowns an earlier visit levelled is not known here. */
static unsigned moved_by(const struct app *app, const struct route_cell *cell)
{
    const struct bench_row *row = bench_row_in(&app->now.setup.outfit, cell->row);
    const unsigned saddle = MOVE_BIT(MOVE_SADDLE) | MOVE_BIT(MOVE_RESET);
    const unsigned rod = MOVE_BIT(MOVE_ROD) | MOVE_BIT(MOVE_RESET);
    const int fret = bench_row_fret(row, &app->now.setup.board);
    const bool levelled = fret > 0 && (!app->has_before || app->before.moves.frets.fret[fret].due);
    const unsigned frets = levelled ? MOVE_BIT(MOVE_FRETS) : 0;

    if (cell->key.field == row->aside)
        return 0;
    switch (row->forecast) {
    case FORECAST_CURVE:
        return rod | frets;
    case FORECAST_HEIGHT:
        return rod | saddle | MOVE_BIT(MOVE_SLOTS) | frets;
    case FORECAST_SADDLE:
        return saddle;
    case FORECAST_ALONE:
        return MOVE_BIT(row->move) | MOVE_BIT(MOVE_RESET);
    case FORECAST_NONE:
        break;
    }
    return 0;
}

const struct leaf_row leaf_bench = {.is_bench = true,
                                    .lay = lay,
                                    .shows = DERIVE_PULL,
                                    .leaf_figure = FIGURE_RELIEF,
                                    .figure = find_figure,
                                    .has_figure = leaf_every_cell,
                                    .expected = bench_expected,
                                    .add_expected_after = bench_add_expected_after,
                                    .moved_by = moved_by,
                                    .draw = bench_view_draw};
