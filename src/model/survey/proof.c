/* SPDX-License-Identifier: MIT */
#include "model/survey/proof.h"

#include <math.h>

#include "model/setup/rod_history.h"
#include "model/setup/pass_read.h"
#include "model/survey/forecast.h"

/* The turns that a neck was given so far; of more than these the first ones stay. */
enum { STEPS_MAX = 64 };

struct walk {
    proof_take *take;
    void *taker;
    struct past past;
    struct place before, place; /* a pass, and the one after it */
    struct derived derived;     /* of `before`; for the relief its setup alone */
    struct rod_step steps[STEPS_MAX];
    int step_count;
};

/* The gauge's step, and the hand that holds it. */
static double reading_u(const struct walk *walk, enum field_id field)
{
    const enum belief_row row = field == FIELD_ACTION ? BELIEF_ACTION : BELIEF_GAP;

    return 2 * pass_read_once_mm(&walk->derived.setup, row);
}

/* Two readings of the same height may lie on neighbouring marks of their gauge: nearer than a step
 * nothing that was read is told from what was expected. */
static void check(struct walk *walk, struct proof_check *made, struct maybe expected, double u_mm)
{
    const struct maybe read = place_read_at(walk->place, made->field, made->string, 0);

    made->u_mm = fmax(hypot(u_mm, reading_u(walk, made->field)),
                      setup_step_mm(&walk->derived.setup, made->field));
    if (!expected.given || !read.given || !(made->u_mm > 0))
        return;
    made->visit = walk->place.visit;
    made->pass = walk->place.pass;
    made->expected_mm = expected.value;
    made->read_mm = read.value;
    made->share = fabs(read.value - expected.value) / made->u_mm;
    if (isfinite(made->share))
        walk->take(walk->taker, made);
}

/* --- relief after a turn --- */

static void check_turn(struct walk *walk, double turns, double before_mm)
{
    struct proof_check made = {.field = FIELD_RELIEF, .move = MOVE_ROD};
    const double reading_u_mm = pass_read_told_mm(&walk->derived.setup, BELIEF_RELIEF);
    struct rod_fit fit;
    double relief_mm;

    if (rod_history_fit(walk->steps, walk->step_count, reading_u_mm, &fit) != STATUS_OK ||
        !(fit.per_turn_mm < 0) ||
        rod_history_predict(fit.per_turn_mm, before_mm, turns, &relief_mm) != STATUS_OK)
        return;
    check(walk, &made, maybe_given(relief_mm),
          hypot(hypot(reading_u(walk, FIELD_RELIEF), 2 * BELIEF_RELIEF_MM),
                turns * fit.per_turn_u_mm));
}

static void follow_rod(struct walk *walk)
{
    const struct maybe turns = place_read(walk->place, FIELD_ROD_TURN);
    const struct maybe before = place_read(walk->before, FIELD_RELIEF);
    const struct maybe after = place_read(walk->place, FIELD_RELIEF);

    if (!turns.given || turns.value == 0 || !before.given || !after.given)
        return;
    setup_read(&walk->derived.setup, walk->before, &(struct findings){.count = 0});
    if (!walk->derived.setup.has_board)
        return;
    check_turn(walk, turns.value, before.value);
    if (walk->step_count < STEPS_MAX)
        walk->steps[walk->step_count++] = (struct rod_step){
            .turns = turns.value, .before_mm = before.value, .after_mm = after.value};
}

/* --- heights --- */

/* The move that a row is judged by, if it was made; else the last of the others. */
static enum move_kind bearing_move(const struct forecast *forecast, const struct bench_row *row)
{
    if (forecast->move[row->move])
        return row->move;
    for (int kind = MOVE_SADDLE; kind >= MOVE_ROD; kind--)
        if (move_is_measured((enum move_kind)kind) && forecast->move[kind])
            return (enum move_kind)kind;
    return MOVE_COUNT_;
}

static void check_row(struct walk *walk, const struct forecast *forecast,
                      const struct bench_row *row, enum nut_method method)
{
    const struct outfit *outfit = &walk->derived.setup.outfit;
    struct proof_check made = {.field = row->field[END_BASS], .move = bearing_move(forecast, row)};

    for (int s = 1; s <= outfit->strings && made.move != MOVE_COUNT_; s++) {
        const struct believed expected = forecast_find(forecast, row, made.field, s, method);

        made.string = s;
        if (outfit_is_read(outfit, s))
            check(walk, &made, expected.mm, expected.u);
    }
}

/* Whether anything was done since the pass before that a height read in this one could check.
 * Deriving that pass costs far more than asking. */
static bool is_worth_deriving(const struct walk *walk)
{
    const bool rod = work_mark_line(walk->before, MOVE_ROD) > 0;

    if (rod && !place_read(walk->place, FIELD_RELIEF).given)
        return false;
    if (!rod && work_mark_line(walk->before, MOVE_SLOTS) == 0 &&
        work_mark_line(walk->before, MOVE_SADDLE) == 0)
        return false;
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (place_reads_any(walk->place, FIELD_NUT_GAP, s) ||
            place_reads_any(walk->place, FIELD_ACTION, s))
            return !work_mark_is_restrung(walk->before);
    return false;
}

static void check_heights(struct walk *walk)
{
    const struct place place = walk->place;
    const enum nut_method method = (enum nut_method)record_choice_or(
        &place.record, place_key(place, FIELD_NUT_METHOD), (int)NUT_OPEN);
    struct forecast forecast;

    derive_gauged(walk->before, &walk->past, &walk->derived);
    if (!walk->derived.setup.has_board)
        return;
    forecast_begin(&forecast, &place.record, &walk->derived, place.visit, place.pass);
    if (forecast.unread)
        return;
    /* By what was then read: turns miss, and that is not what heights are checked for. */
    if (forecast.move[MOVE_ROD])
        forecast_go_by_relief(&forecast);
    if (forecast.move[MOVE_ROD] && !forecast.share.given)
        return;
    check_row(walk, &forecast, bench_row_get(ROW_GAP), method);
    check_row(walk, &forecast, bench_row_get(ROW_ACTION), method);
}

void proof_walk(const struct record *record, proof_take *take, void *taker)
{
    struct walk walk = {.take = take, .taker = taker, .past = past_of(record)};

    walk.place = place_of(record, 0, 0);
    for (walk.before = walk.place; place_next(&walk.place); walk.before = walk.place) {
        if (walk.place.visit != walk.before.visit || walk.place.pass != walk.before.pass + 1)
            continue;
        follow_rod(&walk);
        if (is_worth_deriving(&walk))
            check_heights(&walk);
    }
}
