/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_belief.h"

#include <math.h>
#include <string.h>

#include "model/derive/lie.h"
#include "model/setup/belief_read.h"
#include "model/setup/move_find.h"
#include "model/setup/rocker.h"
#include "model/setup/work_done.h"
#include "model/reading/work_since.h"

/* What was done between two passes. */
struct between {
    struct place place; /* the pass before */
    const struct setup *before;
    struct move_set planned; /* by the readings of the pass before */
    struct maybe turn;       /* of the rod, logged with the pass after */
};

/* What is done about each row. */
static const enum move_kind told_by[BELIEF_ROWS_] = {
    [BELIEF_RELIEF] = MOVE_ROD, [BELIEF_GAP] = MOVE_SLOTS, [BELIEF_ACTION] = MOVE_SADDLE};

/* Whether turns of the rod were logged. */
static bool is_turned(const struct between *between)
{
    return between->turn.given && between->turn.value != 0;
}

/* Something was to be done to a row's strings: they are read again, whatever became of it. */
static void age_saddle(struct belief *belief, const struct between *between,
                       const struct work_done *done)
{
    for (int s = 1; s <= belief->strings; s++)
        if (work_done_reaches(done, &between->planned, between->before, MOVE_SADDLE, s)) {
            belief_age(belief, BELIEF_ACTION, s);
            belief->exposure[s] = maybe_absent();
        }
}

static void age_slots(struct belief *belief, const struct between *between,
                      const struct work_done *done)
{
    for (int s = 1; s <= belief->strings; s++)
        if (outfit_is_read(&between->before->outfit, s) &&
            work_done_reaches(done, &between->planned, between->before, MOVE_SLOTS, s))
            belief_age(belief, BELIEF_GAP, s);
}

static bool is_strung_anew(const struct between *between)
{
    return between->planned.restrung || between->planned.retuned;
}

static bool any_done(const struct between *between)
{
    if (is_strung_anew(between))
        return true;
    for (int kind = 0; kind < MOVE_COUNT_; kind++)
        if (between->planned.move[kind].done_by > 0)
            return true;
    return is_turned(between);
}

/* Whether slots or saddle were left alone. What was due may have been worked on though no line says
 * so; but who logs a turn, or marks another move, marks what was made. */
static bool is_left(const struct between *between, enum move_kind kind)
{
    return between->planned.move[kind].done_by == 0 && any_done(between);
}

static void make_slots(struct belief *belief, const struct between *between)
{
    const struct move *move = &between->planned.move[MOVE_SLOTS];
    const double unknown_mm = 0.15;
    struct work_done done;

    if (is_left(between, MOVE_SLOTS))
        return;
    work_done_find(between->place, between->before, &between->planned, MOVE_SLOTS, &done);
    age_slots(belief, between, &done);
    if (belief->undone[BELIEF_GAP])
        return;
    for (int s = 1; s <= belief->strings; s++) {
        const double mm = done.mm[s];

        if (!outfit_is_read(&between->before->outfit, s))
            continue;
        if (isnan(mm))
            belief_doubt_slot(belief, s, unknown_mm);
        else if (mm != 0)
            belief_work_slot(belief, s, mm);
        else if (move->done_by == 0 && move->string[s].due)
            belief_doubt_slot(belief, s, fabs(move->string[s].value));
    }
}

static void make_saddle(struct belief *belief, const struct between *between)
{
    const struct move *move = &between->planned.move[MOVE_SADDLE];
    double mm[STRINGS_MAX + 1] = {0};
    const double unknown_mm = 1;
    struct work_done done;

    if (is_left(between, MOVE_SADDLE))
        return;
    work_done_find(between->place, between->before, &between->planned, MOVE_SADDLE, &done);
    age_saddle(belief, between, &done);
    if (belief->undone[BELIEF_ACTION])
        return;
    for (int s = 1; s <= belief->strings; s++) {
        mm[s] = done.mm[s];
        if (isnan(mm[s])) {
            belief_doubt_saddle(belief, s, unknown_mm);
            mm[s] = 0;
        } else if (move->done_by == 0 && move->string[s].due) {
            belief_doubt_saddle(belief, s, fabs(move->string[s].value));
        }
    }
    belief_work_saddle(belief, mm);
}

/* A rod that is marked was turned until the relief was right; one whose turns are said, by these:
 * that it came to the target is then a hope. Other strings bend the neck as an unknown turn does.
 */
static void make_rod(struct belief *belief, const struct between *between)
{
    const struct move *move = &between->planned.move[MOVE_ROD];
    const struct maybe *target = &between->before->relief_target_mm;
    const bool turned = is_turned(between);
    const double change = fabs(move->amount.value), unknown_mm = 0.5;
    struct work_done done;
    struct setup level;
    if (turned || move->done_by > 0 || move->state == MOVE_DUE || is_strung_anew(between))
        belief_age(belief, BELIEF_RELIEF, 0);
    work_done_find(between->place, between->before, &between->planned, MOVE_ROD, &done);
    if (move->done_by > 0 && move->state == MOVE_DUE && target->given)
        belief_turn_rod(belief, rocker_level(between->before, &level), target->value,
                        turned || done.is_said ? hypot(BELIEF_RELIEF_MM, change)
                                               : BELIEF_RELIEF_MM);
    else if (turned || move->done_by > 0 || is_strung_anew(between))
        belief_doubt_rod(belief, between->before, unknown_mm);
    else if (move->state == MOVE_DUE)
        belief_doubt_rod(belief, between->before, change);
}

/* Whether a move was made between the two passes, or may have been: it was due. */
static bool may_be_made(const struct between *between, enum move_kind kind)
{
    const struct move *move = &between->planned.move[kind];

    return move->done_by > 0 || move->state == MOVE_DUE;
}

/* Which of rod, slots and saddle were found good and left alone, and with them what each rests on:
 * the slots on the rod, the saddle on both, all of them on the crowns. */
static void settle(struct belief *belief, const struct between *between)
{
    bool alone =
        !is_strung_anew(between) && !may_be_made(between, MOVE_FRETS) && !is_turned(between);

    for (int row = 0; row < BELIEF_ROWS_; row++) {
        alone = alone && !may_be_made(between, told_by[row]);
        belief->settled[row] = alone && between->planned.move[told_by[row]].state == MOVE_GOOD;
    }
}

/* What tells work that was not done: its readings agree with that well, and far better than with
 * what was logged (squares of deviations). */
#define UNDONE_BETTER 30.0
#define UNDONE_WELL   3.0
#define UNDONE_TOO    9.0 /* the slots, where the saddle was not done either */

/* How far the pass lies from what is known, with slots and saddle made as they are marked. */
static double misfit_with(const struct belief *belief, const struct between *between,
                          const struct setup *now, enum belief_row undone, int *ret_count)
{
    struct belief trial = *belief;

    if (undone != BELIEF_RELIEF)
        trial.undone[undone] = true;
    make_slots(&trial, between);
    make_saddle(&trial, between);
    return belief_misfit(&trial, now, ret_count);
}

/* A tech marks what is about to be done, and forgets it; or marks the wrong line. The list would
 * order more of it, to make up for what it believes was done already. */
static void find_undone(struct belief *belief, const struct between *between,
                        const struct setup *now)
{
    bool undone[BELIEF_ROWS_] = {false};
    struct belief trial = *belief;
    int count;

    if (between->planned.move[MOVE_SLOTS].done_by == 0 &&
        between->planned.move[MOVE_SADDLE].done_by == 0)
        return;
    double off = misfit_with(&trial, between, now, BELIEF_RELIEF, &count);

    for (int row = BELIEF_ACTION; row >= BELIEF_GAP; row--) {
        if (between->planned.move[told_by[row]].done_by == 0)
            continue;
        const double without = misfit_with(&trial, between, now, (enum belief_row)row, &count);
        undone[row] = off - without > (undone[BELIEF_ACTION] ? UNDONE_TOO : UNDONE_BETTER);
        trial.undone[row] = undone[row];
        off = undone[row] ? without : off;
    }
    for (int row = BELIEF_GAP; row < BELIEF_ROWS_; row++)
        belief->undone[row] = undone[row] && off < UNDONE_WELL * count;
}

/* From one pass to the next. */
static void go_on(struct belief *belief, const struct between *between, const struct setup *now)
{
    if (between->planned.move[MOVE_RESET].done_by > 0) {
        belief_begin(belief, now);
        return;
    }
    memset(belief->undone, 0, sizeof belief->undone);
    make_rod(belief, between);
    find_undone(belief, between, now);
    make_slots(belief, between);
    make_saddle(belief, between);
    settle(belief, between);
    if (!any_done(between) && belief_is_other(belief, now))
        belief_begin(belief, now);
}

static void read_next(struct place place, const struct setup *now, const struct setup *before,
                      struct belief *belief)
{
    struct between between = {.place = place_of(&place.record, place.visit, place.pass - 1),
                              .before = before,
                              .turn = place_read(place, FIELD_ROD_TURN)};

    move_find_work(before, belief, &between.planned);
    move_set_mark(&between.planned, between.place);
    go_on(belief, &between, now);
}

/* What the turns teach changes only once another is logged. */
static void learn_of_rod(struct belief_walk *walk, struct place place, bool first)
{
    struct findings unused = {.count = 0};

    walk->turned = (walk->turned && !first) || place_read(place, FIELD_ROD_TURN).given;
    if (walk->turned || first)
        survey_rod_after(&walk->turns, place, &walk->rod, &unused);
    walk->belief.rod = walk->rod;
}

/* A crown that is not rocked again stands as it did, until the frets are worked on. */
static void keep_spots(struct place place, const struct setup *before, struct setup *now)
{
    const struct place from = place_of(&place.record, place.visit, place.pass - 1);

    if (lie_is_dressed(from, place))
        return;
    const uint64_t level = work_rocked_between(from, place);
    for (int n = 1; n <= now->board.frets; n++)
        if (!now->spot_mm[n].given)
            now->spot_mm[n] = level >> n & 1 ? maybe_given(0) : before->spot_mm[n];
}

static void read_exposure(struct belief *belief, const struct setup *setup)
{
    for (int s = 2; s < belief->strings; s++)
        if (setup->exposure_mm[s].given)
            belief->exposure[s] = setup->exposure_mm[s];
    if (setup->exposure_bass_mm.given)
        belief->exposure[belief->strings] = setup->exposure_bass_mm;
    if (setup->exposure_treble_mm.given)
        belief->exposure[1] = setup->exposure_treble_mm;
}

struct belief_walk belief_walk_of(const struct record *record)
{
    return (struct belief_walk){.at = place_of(record, 0, 0), .turns = rod_walk_of(record)};
}

/* Whether the walk from the visit's first pass to this one begins with the one that was made.
 * Where a visit changed the instrument, a later pass may see another board. */
static bool goes_on(const struct belief_walk *walk, struct place place)
{
    return walk->at.visit == place.visit && walk->at.pass > 0 && walk->at.pass < place.pass &&
           lie_first_pass(place) == 1 && !record_is_changed(&place.record);
}

void derive_belief(struct place place, const struct setup *setup, struct belief_walk *walk,
                   struct belief *ret_belief)
{
    const int first = lie_first_pass(place);
    int pass = first;

    if (goes_on(walk, place))
        pass = walk->at.pass + 1;
    else
        belief_begin(&walk->belief, setup);
    for (; pass <= place.pass; pass++) {
        const struct place here = place_of(&place.record, place.visit, pass);
        struct findings unused = {.count = 0};
        struct setup now = *setup;

        if (pass < place.pass)
            setup_read(&now, here, &unused);
        if (pass > first) {
            keep_spots(here, &walk->setup, &now);
            read_next(here, &now, &walk->setup, &walk->belief);
        }
        belief_read(&walk->belief, &now);
        learn_of_rod(walk, here, pass == first);
        read_exposure(&walk->belief, &now);
        walk->setup = now;
    }
    walk->at = place;
    *ret_belief = walk->belief;
    /* A pass that is but begun says nothing yet. Once anything is read in it, what was read before
     * and not worked on since still holds. */
    if (place.pass > record_last_read_pass(&place.record, place.visit))
        memset(ret_belief->fresh, 0, sizeof ret_belief->fresh);
}
