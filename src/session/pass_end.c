/* SPDX-License-Identifier: MIT */
#include "session/pass_end.h"

#include "model/figure/bench_row.h"
#include "session/again.h"
#include "session/cell_words.h"
#include "words/move_words.h"

/* Once anything is read in a pass, what was read before it in the visit and not worked on since
 * still holds. */
static bool holds(const struct app *app, const struct route_cell *cell)
{
    const struct reading *last = app_pass_is_empty(app) ? NULL : again_find(app, cell);

    return last && last->key.visit == app->visit;
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
