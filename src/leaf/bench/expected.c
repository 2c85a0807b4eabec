/* SPDX-License-Identifier: MIT */
#include "leaf/bench/expected.h"

#include <math.h>

#include "model/setup/belief_line.h"
#include "model/setup/bench_goal.h"
#include "model/setup/neck_curve.h"
#include "model/setup/work_done.h"

/* What was done since the pass before, as far as is known. */
struct done {
    bool marked; /* the Work leaf says so */
    bool move[MOVE_COUNT_];
    bool unread; /* what it says of how much makes no sense */
    /* Slots and saddle: by how much, up (+) or down; NAN where nobody knows. */
    double mm[MOVE_COUNT_][STRINGS_MAX + 1];
    struct maybe share; /* of the way to its target that the rod went; absent where unknown */
};

/* By the relief that was read since. */
static struct maybe share_read(const struct app *app)
{
    const struct maybe relief = neck_curve_find_relief(&app->now.setup);
    const struct believed *was = &app->before.moves.relief;
    const struct move_amount *asked = &app->before.moves.move[MOVE_ROD].amount;

    if (!relief.given || !was->mm.given || !asked->due)
        return maybe_absent();
    return maybe_finite((relief.value - was->mm.value) / asked->value);
}

/* By the turns logged for this pass, else by those asked for at once. Who went on to slots or
 * saddle has turned until the relief was right. Where nobody knows what those turns do, the
 * relief tells once it is read. */
static struct maybe find_share(const struct app *app, struct maybe turned)
{
    const struct move *move = app->before.moves.move;
    const struct maybe share =
        move_rod_share(&move[MOVE_ROD], setup_rod_turns(&app->before.setup), turned);
    const bool went_on = move[MOVE_SLOTS].done_by > 0 || move[MOVE_SADDLE].done_by > 0;

    if (share.given)
        return share;
    return !turned.given && went_on ? maybe_given(1) : share_read(app);
}

/* What the work lines say of one move. */
static void add_work(const struct app *app, enum move_kind kind, struct done *done)
{
    const struct place place = place_of(&app->record, app->visit, app->pass - 1);
    struct work_done work;

    done->move[kind] = app->before.moves.move[kind].done_by > 0;
    done->marked = done->marked || done->move[kind];
    if (!move_is_measured(kind))
        return;
    work_done_find(place, &app->before.setup, &app->before.moves, kind, &work);
    done->unread = done->unread || work.unread;
    for (int s = 1; s <= STRINGS_MAX; s++)
        /* No amount where none was planned: as planned. */
        done->mm[kind][s] = isnan(work.mm[s]) && !work.is_said ? 0 : work.mm[s];
    if (kind == MOVE_ROD)
        done->share = find_share(app, work.turns);
}

static void add_planned(const struct app *app, enum move_kind kind, struct done *done)
{
    const struct move *move = &app->before.moves.move[kind];

    done->move[kind] = true;
    for (int s = 1; s <= STRINGS_MAX; s++)
        done->mm[kind][s] = move->string[s].due ? move->string[s].value : 0;
    if (kind == MOVE_SADDLE)
        setup_carry_inner(&app->before.setup, done->mm[kind]);
}

static struct done find_done(const struct app *app)
{
    struct done done = {.marked = false};

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        add_work(app, (enum move_kind)kind, &done);
    if (done.marked)
        return done;
    /* If the rod is due, only the rod: everything is measured again before anything is cut. */
    const bool rod = app->before.moves.move[MOVE_ROD].state == MOVE_DUE;
    done.move[MOVE_ROD] = rod;
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE && !rod; kind++)
        add_planned(app, (enum move_kind)kind, &done);
    return done;
}

/* Whether anything was done after which no reading can be told. */
static bool beyond_forecast(const struct done *done)
{
    /* A setback moves no height that a gauge could tell, and a levelled crown moves at most the
     * readings over itself, by about a step of the gauge. */
    static const bool reckoned[MOVE_COUNT_] = {[MOVE_ROD] = true,
                                               [MOVE_FRETS] = true,
                                               [MOVE_SLOTS] = true,
                                               [MOVE_SADDLE] = true,
                                               [MOVE_PITCH] = true};

    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (done->move[kind] && !reckoned[kind])
            return true;
    return false;
}

static struct maybe known(double value)
{
    return isnan(value) ? maybe_absent() : maybe_given(value);
}

/* How much the slots and the saddle, if done, lift a string at x: each in a straight line. */
static double lift_mm(const struct derived *before, const struct done *done, int string,
                      double x_mm)
{
    const double part = x_mm / before->setup.board.contact_mm[string];

    return done->mm[MOVE_SLOTS][string] * (1 - part) + done->mm[MOVE_SADDLE][string] * part;
}

static struct maybe find_curve(const struct app *app, const struct done *done)
{
    const struct move_set *moves = &app->before.moves;

    if (!moves->move[MOVE_ROD].amount.due || !done->move[MOVE_ROD])
        return moves->relief.mm;
    return move_part(moves->relief.mm,
                     bench_goal_at(bench_row_get(ROW_RELIEF), &app->record, END_BASS), done->share);
}

/* Of an open string: as it is believed to be, or, once the rod is turned, as far as it was. */
static struct maybe find_height(const struct app *app, const struct done *done,
                                const struct bench_row *row, int string)
{
    const struct derived *before = &app->before;
    const struct board *board = &before->setup.board;
    const struct move *rod = &before->moves.move[MOVE_ROD];
    const bool gap = row->move == MOVE_SLOTS;
    const struct maybe then = gap ? rod->gap_then[string] : rod->action_then[string];
    const struct maybe now = gap ? before->moves.gap[string].mm : before->moves.action[string].mm;
    const struct maybe height = done->move[MOVE_ROD] ? move_part(now, then, done->share) : now;

    if (!height.given)
        return maybe_absent();
    const int fret = gap ? board_gap_fret(board, string) : bench_row_fret(row, board);
    const double x_mm = board->station_mm[string][fret];
    return known(height.value + lift_mm(before, done, string, x_mm));
}

/* As find_height, as the row is read: a gap held down where gaps are read so. */
static struct maybe find_read(const struct app *app, const struct done *done,
                              const struct bench_row *row, int string)
{
    const struct maybe height = find_height(app, done, row, string);

    if (!row->read_held || app_nut_method(app) == NUT_OPEN)
        return height;
    const struct maybe relief = find_curve(app, done);
    const struct maybe action = find_height(app, done, bench_row_get(ROW_ACTION), string);

    if (!height.given || !relief.given || !action.given)
        return maybe_absent();
    return belief_line_held_from(&app->before.setup, string, relief.value, height.value,
                                 action.value);
}

static struct maybe find_exposure(const struct app *app, const struct done *done,
                                  const struct bench_row *row, enum bench_end end)
{
    const struct derived *before = &app->before;
    const int string = end == END_BASS ? before->setup.board.strings : 1;
    const struct maybe read =
        record_entered(&app->record, bench_row_key(row, end, app->visit, app->pass - 1, 0));

    if (!read.given)
        return read;
    return known(read.value + done->mm[MOVE_SADDLE][string]);
}

/* Under a bar: as it was, and by what was done there. */
static struct maybe find_end(const struct app *app, const struct done *done,
                             const struct bench_row *row, int string)
{
    const struct move_set *moves = &app->before.moves;
    const struct maybe now =
        row->move == MOVE_SLOTS ? moves->gap[string].mm : moves->action[string].mm;

    return now.given ? known(now.value + done->mm[row->move][string]) : now;
}

struct maybe bench_expected(const struct app *app, const struct route_cell *cell)
{
    if (!app->has_before)
        return maybe_absent();
    const struct bench_row *row = bench_row_in(&app->now.setup.outfit, cell->row);
    const struct done done = find_done(app);
    if (beyond_forecast(&done) || cell->key.field == row->aside)
        return maybe_absent();
    switch (row->forecast) {
    case FORECAST_CURVE:
        return find_curve(app, &done);
    case FORECAST_HEIGHT:
        return find_read(app, &done, row, cell->string);
    case FORECAST_SADDLE:
        return find_exposure(app, &done, row, bench_row_end(row, cell->key.field));
    case FORECAST_ALONE:
        return find_end(app, &done, row, cell->string);
    case FORECAST_NONE:
        break;
    }
    return maybe_absent();
}

bool bench_add_expected_after(const struct app *app, struct strbuf *out)
{
    const struct done done = find_done(app);
    int count = 0;

    if (beyond_forecast(&done))
        return false;
    strbuf_add(out, "after ");
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (done.move[kind]) {
            strbuf_add(out, count++ ? ", " : "");
            strbuf_add(out, outfit_move_name(&app->before.setup.outfit, (enum move_kind)kind));
        }
    strbuf_add(out, done.unread   ? "; amount not understood"
                    : done.marked ? ", as marked on Work"
                                  : ", if done (Work marks it)");
    return true;
}
