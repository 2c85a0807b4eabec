/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/leaf_work.h"

#include "leaf/leaves.h"
#include "model/derive/derive_heard_moves.h"
#include "leaf/jobs/work_actions.h"
#include "leaf/jobs/work_entries.h"
#include "leaf/jobs/work_list.h"
#include "leaf/jobs/work_view.h"

/* Frets and pitch have a row only while something asks for them. */
static bool is_listed(const struct leaf_place *place, enum move_kind kind)
{
    const int read = record_last_read_pass(place->record, place->visit);
    const int pass = place->pass < read ? place->pass : read;

    if (!outfit_has_move(&place->outfit, kind))
        return false;
    return kind == MOVE_RESET || move_is_measured(kind) ||
           derive_asks(place_of(place->record, place->visit, pass), kind, place->strings,
                       place->frets);
}

static void lay(const struct leaf_place *place, struct route *route)
{
    const int visit = place->visit, last = record_last_work(place->record, visit);
    struct reading_key turns;
    int row = 0;

    for (; row < MOVE_COUNT_; row++)
        if (last < WORKS_MAX && is_listed(place, (enum move_kind)row))
            route_add(route, work_key(WORK_AMOUNT, visit, last + 1), row, 0, place->strings);
    if (work_turns_key(place_of(place->record, visit, place->pass), &turns)) {
        route_add(route, turns, MOVE_ROD, 1, place->strings);
        route_set_aside(route);
    }
    for (int line = last > WORK_LINES_MAX ? last - WORK_LINES_MAX + 1 : 1; line <= last; line++) {
        if (!work_line_exists(place->record, visit, line))
            continue;
        for (int column = 0; column < WORK_COLUMN_COUNT_; column++)
            route_add(route, work_key((enum work_column)column, visit, line), row, column,
                      place->strings);
        row++;
    }
    if (last < WORKS_MAX)
        route_add(route, work_key(WORK_KIND, visit, last + 1), row, 0, place->strings);
}

static enum figure_id find_figure(const struct app *app)
{
    return move_explained(&app->now.setup.outfit, work_move_in_hand(app));
}

/* A move is not a reading. */
static bool explains_cell(const struct app *app)
{
    return work_move_in_hand(app) == MOVE_COUNT_;
}

static void settle(struct app *app, bool entering)
{
    if (entering || work_move_in_hand(app) != MOVE_COUNT_)
        (void)work_take_next(app);
}

const struct leaf_row leaf_work = {.is_of_visit = true,
                                   .state_size = sizeof(struct work_begun),
                                   .lay = lay,
                                   .shows = DERIVE_FIGURES,
                                   .leaf_figure = FIGURE_RELIEF,
                                   .figure = find_figure,
                                   .explains_cell = explains_cell,
                                   .settle = settle,
                                   .accept = work_accept,
                                   .before_filing = work_begin_line,
                                   .after_filing = work_complete,
                                   .about = work_look_about,
                                   .add_prompt = work_view_add_prompt,
                                   .add_hint = work_view_add_hint,
                                   .draw = work_view_draw};
