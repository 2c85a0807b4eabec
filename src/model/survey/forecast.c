/* SPDX-License-Identifier: MIT */
#include "model/survey/forecast.h"

#include <math.h>

#include "model/setup/belief_line.h"
#include "model/setup/bench_goal.h"
#include "model/setup/neck_curve.h"
#include "model/setup/pass_read.h"
#include "model/setup/rocker.h"
#include "model/setup/uncertainty.h"
#include "model/setup/work_done.h"

/* What level crowns change in a relief. */
static double dressed_mm(const struct forecast *forecast)
{
    if (!forecast->level.has_board || !forecast->level.board.has_relief)
        return 0;
    return belief_line_relief(&forecast->level).constant -
           belief_line_relief(&forecast->before->setup).constant;
}

static struct maybe share_read(const struct forecast *forecast)
{
    const struct move_set *moves = &forecast->before->moves;
    const struct move_amount *asked = &moves->move[MOVE_ROD].amount;
    struct findings unused = {.count = 0};
    struct setup now;

    setup_read(&now, place_of(forecast->record, forecast->visit, forecast->pass), &unused);
    const struct maybe relief = neck_curve_find_relief(&now);
    if (!relief.given || !moves->relief.mm.given || !asked->due)
        return maybe_absent();
    return maybe_finite((relief.value - dressed_mm(forecast) - moves->relief.mm.value) /
                        asked->value);
}

/* Both reliefs err, the one before and the one read then, and all that follows the rod with them.
 */
void forecast_go_by_relief(struct forecast *forecast)
{
    const struct move_set *moves = &forecast->before->moves;

    forecast->share = share_read(forecast);
    if (forecast->share.given)
        forecast->share_u =
            hypot(moves->relief.u, 2 * pass_read_once_mm(&forecast->before->setup, BELIEF_RELIEF)) /
            fabs(moves->move[MOVE_ROD].amount.value);
}

/* By the turns logged for this pass, else by those asked for at once. Who went on to slots or
 * saddle has turned until the relief was right. Where nobody knows what those turns do, the
 * relief tells once it is read. */
static struct maybe find_share(const struct forecast *forecast, struct maybe turned)
{
    const struct derived *before = forecast->before;
    const struct move *move = before->moves.move;
    const struct maybe share =
        move_rod_share(&move[MOVE_ROD], setup_rod_turns(&before->setup), turned);
    const bool went_on = move[MOVE_SLOTS].done_by > 0 || move[MOVE_SADDLE].done_by > 0;

    if (share.given)
        return share;
    return !turned.given && went_on ? maybe_given(1) : share_read(forecast);
}

/* What the work lines say of one move. */
static void add_work(struct forecast *forecast, enum move_kind kind)
{
    const struct derived *before = forecast->before;
    const struct place place = place_of(forecast->record, forecast->visit, forecast->pass - 1);
    struct work_done work;

    forecast->move[kind] = before->moves.move[kind].done_by > 0;
    forecast->marked = forecast->marked || forecast->move[kind];
    if (!move_is_measured(kind))
        return;
    work_done_find(place, &before->setup, &before->moves, kind, &work);
    forecast->unread = forecast->unread || work.unread;
    for (int s = 1; s <= STRINGS_MAX; s++)
        /* No amount where none was planned: as planned. */
        forecast->mm[kind][s] = isnan(work.mm[s]) && !work.is_said ? 0 : work.mm[s];
    if (kind == MOVE_ROD)
        forecast->share = find_share(forecast, work.turns);
}

static void add_planned(struct forecast *forecast, enum move_kind kind)
{
    const struct move *move = &forecast->before->moves.move[kind];

    forecast->move[kind] = true;
    for (int s = 1; s <= STRINGS_MAX && move->state == MOVE_DUE; s++)
        forecast->mm[kind][s] = work_planned_mm(&forecast->before->setup, move, s);
    if (kind == MOVE_SADDLE)
        setup_carry_inner(&forecast->before->setup, forecast->mm[kind]);
}

void forecast_begin(struct forecast *ret_forecast, const struct record *record,
                    const struct derived *before, int visit, int pass)
{
    *ret_forecast =
        (struct forecast){.record = record, .before = before, .visit = visit, .pass = pass};
    ret_forecast->level = before->setup;
    if (before->moves.move[MOVE_FRETS].done_by > 0)
        rocker_level(&before->setup, &ret_forecast->level);
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        add_work(ret_forecast, (enum move_kind)kind);
    if (ret_forecast->marked)
        return;
    /* If the rod is due, only the rod: everything is measured again before anything is cut. */
    const bool rod = before->moves.move[MOVE_ROD].state == MOVE_DUE;
    ret_forecast->move[MOVE_ROD] = rod;
    if (!rod && before->moves.move[MOVE_FRETS].state == MOVE_DUE)
        rocker_level(&before->setup, &ret_forecast->level);
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE && !rod; kind++)
        add_planned(ret_forecast, (enum move_kind)kind);
}

bool forecast_is_beyond(const struct forecast *forecast)
{
    /* A setback moves no height that a gauge could tell. */
    static const bool reckoned[MOVE_COUNT_] = {[MOVE_ROD] = true,
                                               [MOVE_FRETS] = true,
                                               [MOVE_SLOTS] = true,
                                               [MOVE_SADDLE] = true,
                                               [MOVE_PITCH] = true};

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (forecast->move[kind] && !reckoned[kind])
            return true;
    return false;
}

static struct believed as_believed(double value, double u)
{
    return (struct believed){.mm = isnan(value) ? maybe_absent() : maybe_given(value), .u = u};
}

/* How much the slots and the saddle, if done, lift a string at x: each in a straight line. */
static double lift_mm(const struct forecast *forecast, int string, double x_mm)
{
    const double part = x_mm / forecast->before->setup.board.contact_mm[string];

    return forecast->mm[MOVE_SLOTS][string] * (1 - part) + forecast->mm[MOVE_SADDLE][string] * part;
}

static struct believed find_curve(const struct forecast *forecast)
{
    const struct move_set *moves = &forecast->before->moves;
    const struct move *rod = &moves->move[MOVE_ROD];
    struct believed curve = moves->relief;

    if (rod->amount.due && forecast->move[MOVE_ROD])
        curve.mm = move_part(moves->relief.mm, rod->relief_then, forecast->share);
    return (struct believed){
        .mm = curve.mm.given ? maybe_given(curve.mm.value + dressed_mm(forecast)) : maybe_absent(),
        .u = curve.u};
}

/* What the hand that did it misses by, over a string at a part of its length: twice the standard
 * deviation, as belief has it (belief.h). */
static double hand_u_mm(const struct forecast *forecast, int string, double part)
{
    const struct move *rod = &forecast->before->moves.move[MOVE_ROD];
    const double relief_mm =
        forecast->move[MOVE_ROD] ? rod->amount.value * maybe_or(forecast->share, 1) : 0;
    const bool cut = fabs(forecast->mm[MOVE_SLOTS][string]) > 0;
    const bool raised = fabs(forecast->mm[MOVE_SADDLE][string]) > 0;
    const double nut = hypot(cut ? BELIEF_SLOT_MM : 0, BELIEF_UNEVEN_NUT * relief_mm);
    const double saddle =
        hypot(raised ? hypot(BELIEF_SADDLE_MM, BELIEF_STRING_MM) : 0, BELIEF_UNEVEN * relief_mm);

    return 2 * hypot(nut * (1 - part), saddle * part);
}

/* Of an open string: as it is believed to be, or, once the rod is turned, as far as it was. */
static struct believed find_height(const struct forecast *forecast, const struct bench_row *row,
                                   int string)
{
    const struct derived *before = forecast->before;
    const struct board *board = &before->setup.board;
    const struct move *rod = &before->moves.move[MOVE_ROD];
    const bool gap = row->move == MOVE_SLOTS;
    const struct maybe then = gap ? rod->gap_then[string] : rod->action_then[string];
    const struct believed now = gap ? before->moves.gap[string] : before->moves.action[string];
    const struct maybe height =
        forecast->move[MOVE_ROD] ? move_part(now.mm, then, forecast->share) : now.mm;

    if (!height.given)
        return as_believed((double)NAN, 0);
    const int fret = gap ? board_gap_fret(board, string) : bench_row_fret(row, board);
    const double x_mm = board->station_mm[string][fret];
    /* Over a crown that was taken down a string stands higher. */
    const double lower_mm = before->setup.spot_mm[fret].value - forecast->level.spot_mm[fret].value;
    const double hand_u = hand_u_mm(forecast, string, x_mm / board->contact_mm[string]);
    const double rod_u = forecast->share_u * (maybe_or(then, now.mm.value) - now.mm.value);
    return as_believed(height.value + lower_mm + lift_mm(forecast, string, x_mm),
                       hypot(hypot(now.u, hand_u), rod_u));
}

/* As find_height, as the row is read: a gap held down where gaps are read so. */
static struct believed find_read(const struct forecast *forecast, const struct bench_row *row,
                                 int string, enum nut_method method)
{
    const struct believed height = find_height(forecast, row, string);

    if (!row->read_held || method == NUT_OPEN)
        return height;
    const struct believed relief = find_curve(forecast);
    const struct believed action = find_height(forecast, bench_row_get(ROW_ACTION), string);

    if (!height.mm.given || !relief.mm.given || !action.mm.given)
        return as_believed((double)NAN, 0);
    return (struct believed){.mm = belief_line_held_from(&forecast->level, string, relief.mm.value,
                                                         height.mm.value, action.mm.value),
                             .u = forecast->before->moves.held[string].u};
}

/* At an end of the row, or on an inner string that has a saddle of its own. */
static struct believed find_exposure(const struct forecast *forecast, const struct bench_row *row,
                                     enum field_id field, int string)
{
    const struct setup *setup = &forecast->before->setup;
    const int visit = forecast->visit, pass = forecast->pass - 1;
    const enum bench_end end = bench_row_end(row, field);
    const struct reading_key key = field == row->inner
                                       ? reading_key_pass_at(field, visit, pass, string, 0)
                                       : bench_row_key(row, end, visit, pass, 0);
    const struct maybe read = record_entered(forecast->record, key);

    if (field != row->inner)
        string = end == END_BASS ? setup->board.strings : 1;
    if (!read.given)
        return as_believed((double)NAN, 0);
    return as_believed(read.value + forecast->mm[MOVE_SADDLE][string],
                       2 * uncertainty_of_step(setup->rule_step_mm));
}

/* Under a bar: as it was, and by what was done there. */
static struct believed find_end(const struct forecast *forecast, const struct bench_row *row,
                                int string)
{
    const struct move_set *moves = &forecast->before->moves;
    const struct believed now =
        row->move == MOVE_SLOTS ? moves->gap[string] : moves->action[string];

    if (!now.mm.given)
        return now;
    return as_believed(now.mm.value + forecast->mm[row->move][string], now.u);
}

struct believed forecast_find(const struct forecast *forecast, const struct bench_row *row,
                              enum field_id field, int string, enum nut_method method)
{
    if (forecast_is_beyond(forecast) || field == row->aside)
        return as_believed((double)NAN, 0);
    switch (row->forecast) {
    case FORECAST_CURVE:
        return find_curve(forecast);
    case FORECAST_HEIGHT:
        return find_read(forecast, row, string, method);
    case FORECAST_SADDLE:
        return find_exposure(forecast, row, field, string);
    case FORECAST_ALONE:
        return find_end(forecast, row, string);
    case FORECAST_NONE:
        break;
    }
    return as_believed((double)NAN, 0);
}
