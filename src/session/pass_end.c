/* SPDX-License-Identifier: MIT */
#include "session/pass_end.h"

#include "model/figure/bench_row.h"
#include "session/again.h"
#include "session/cell_words.h"
#include "session/refresh.h"
#include "words/move_words.h"

/* What was read before in the visit, and not worked on since. */
static bool still_holds(const struct app *app, const struct leaf_row *leaf,
                        const struct route_cell *cell)
{
    if (move_set_tells(&app->now.moves, cell->key.field))
        return move_set_holds(&app->now.moves, cell->key.field, cell->key.string);
    const struct reading *last = again_find_on(app, leaf, cell);

    return last && last->key.visit == app->visit;
}

/* It counts once anything is read in a pass. */
static bool holds(const struct app *app, const struct route_cell *cell)
{
    return !app_pass_is_empty(app) && still_holds(app, app_row(app), cell);
}

static bool is_needed(const struct app *app, const struct route_cell *cell)
{
    const struct bench_row *row = bench_row_of(cell->key.field);

    return !cell->aside && !holds(app, cell) && !record_get(&app->record, &cell->key) &&
           !(row && row->goal == GOAL_LEAST && app_reading_before(app, cell));
}

int pass_end_find_gap(const struct app *app)
{
    for (int i = 0; i < app->route.count; i++)
        if (is_needed(app, &app->route.cells[i]))
            return i;
    return -1;
}

/* --- before it goes back --- */

static const struct leaf_row *find_bench(const struct app *app)
{
    int leaf = 0;

    while (!app->leaves->row[leaf]->is_bench)
        leaf++;
    return app->leaves->row[leaf];
}

/* Whether a cell was read in this visit, in the pass in hand or before it. */
static bool was_read(const struct app *app, const struct route_cell *cell)
{
    const struct reading *before = app_reading_before(app, cell);

    return record_get(&app->record, &cell->key) || (before && before->key.visit == app->visit);
}

/* A bit for each row of the bench with such a cell. A saddle's exposure need not be read. */
static unsigned rows_read(const struct app *app, const struct route *route)
{
    unsigned rows = 0;

    for (int i = 0; i < route->count; i++) {
        const struct route_cell *cell = &route->cells[i];
        const struct bench_row *row = bench_row_of(cell->key.field);

        if (row && row->goal != GOAL_LEAST && !cell->aside && was_read(app, cell))
            rows |= 1U << cell->row;
    }
    return rows;
}

int pass_end_count_unread(const struct app *app, struct route_cell *ret_first)
{
    const struct leaf_row *bench = find_bench(app);
    struct route route;
    int count = 0;

    app_lay_on(app, bench, app_pass_in_hand(app), &route);
    const unsigned rows = rows_read(app, &route);
    for (int i = 0; i < route.count; i++) {
        const struct route_cell *cell = &route.cells[i];

        if (cell->aside || !(rows >> cell->row & 1) || record_get(&app->record, &cell->key) ||
            still_holds(app, bench, cell))
            continue;
        if (count++ == 0)
            *ret_first = *cell;
    }
    return count;
}

/* Whether nothing but ear, tuner and rocker is asked. */
static bool hears_again(const struct move_set *moves)
{
    if (moves->restrung || moves->retuned)
        return false;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (move_is_asked(&moves->move[kind]) && moves->move[kind].needs != NEED_HEARING &&
            moves->move[kind].needs != NEED_TUNING && moves->move[kind].needs != NEED_ROCKER)
            return false;
    return true;
}

static const char *find_next(const struct app *app, enum move_verdict verdict)
{
    if (app->pass < app_last_pass(app))
        return "p or * 4 goes on to the next pass";
    switch (verdict) {
    case MOVES_READY:
        return "nothing is due";
    case MOVES_WORK:
    case MOVES_RESET:
        return "what is due is on Work: F7 or * 0 7";
    case MOVES_MEASURE:
        if (move_set_is_questioned(&app_shown(app)->moves))
            return "a reading does not fit the others: read it again";
        if (hears_again(&app_shown(app)->moves))
            return app_shown(app)->moves.move[MOVE_FRETS].needs == NEED_ROCKER
                       ? "rock what Frets names: F5 or * 0 5"
                       : "hear and tune again: Frets F5 or * 0 5, Pitch F4 or * 0 4";
        if (move_set_settles(&app_shown(app)->moves))
            return "let the neck settle, then p or * 4 begins the next pass";
        break;
    }
    return "p or * 4 begins the next pass";
}

void pass_end_add_words(const struct app *app, struct strbuf *out)
{
    const int gap = pass_end_find_gap(app);

    if (gap >= 0) {
        strbuf_add(out, "not read yet: ");
        cell_words_add_name(app, &app->route.cells[gap], out);
        strbuf_add(out, "; Enter goes there");
    } else {
        const enum move_verdict verdict = move_set_verdict(&app_shown(app)->moves);

        strbuf_add(out, "all cells done; ");
        strbuf_add(out, find_next(app, verdict));
        if (verdict == MOVES_READY && app->pass >= app_last_pass(app))
            move_words_add_ready(out, app_shown(app));
    }
}
