/* SPDX-License-Identifier: MIT */
#include "model/setup/survey_rod.h"

#include <math.h>
#include <string.h>

#include "model/setup/neck_curve.h"
#include "model/setup/pass_read.h"
#include "model/setup/setup.h"

static void add_step(struct rod_walk *walk, double turns, double before_mm, double after_mm)
{
    if (walk->count == ROD_STEPS_MAX) {
        walk->first++;
        walk->count--;
    }
    if (walk->first + walk->count == ROD_STEPS_MAX + ROD_STEPS_SPARE) {
        memmove(walk->step, walk->step + walk->first, (size_t)walk->count * sizeof walk->step[0]);
        walk->first = 0;
    }
    walk->step[walk->first + walk->count++] =
        (struct rod_step){.turns = turns, .before_mm = before_mm, .after_mm = after_mm};
}

static void add_turn(struct rod_walk *walk, double turns)
{
    walk->stands += turns;
    walk->slackest = fmin(walk->slackest, walk->stands);
    walk->tightest = fmax(walk->tightest, walk->stands);
}

static struct maybe relief_of(struct setup *setup, struct place place)
{
    setup_follow(setup, place);
    return neck_curve_find_relief(setup);
}

/* From one pass in which something was read to the next; of two visits the climate moved the neck
 * too. The reliefs are asked for only where a turn lies between. */
static void take_step(struct rod_walk *walk, struct setup *setup, struct place place)
{
    if (place.visit != walk->read.visit || walk->turns == 0)
        return;
    const struct maybe was = relief_of(setup, walk->read), is = relief_of(setup, place);
    if (was.given && is.given)
        add_step(walk, walk->turns, was.value, is.value);
}

static void take_pass(struct rod_walk *walk, struct setup *setup, struct place place)
{
    const double turn = maybe_or(place_read(place, FIELD_ROD_TURN), 0);

    walk->at = place;
    add_turn(walk, turn);
    walk->turns = place.visit == walk->read.visit ? walk->turns + turn : turn;
    if (!record_is_read_pass(&place.record, place.visit, place.pass))
        return;
    take_step(walk, setup, place);
    walk->read = place;
    walk->turns = 0;
}

/* Leaves the setup of the last pass that was read, its targets and reliefs, in *ret_last. What
 * later passes teach was not known in `last`. */
static void go_on(struct rod_walk *walk, struct place last, struct setup *ret_last)
{
    struct findings unused = {.count = 0};
    struct place next = walk->at;

    setup_read(ret_last, place_of(&last.record, 0, 0), &unused);
    while (place_next(&next) && (last.visit == 0 || !place_is_after(next, last)))
        take_pass(walk, ret_last, next);
    setup_follow(ret_last, walk->read.pass > 0 ? walk->read : place_of(&last.record, 0, 0));
}

static void plan_turn(const struct setup *setup, double reading_u_mm, struct survey_rod *rod)
{
    const struct maybe relief = neck_curve_find_relief(setup);
    const double target_mm = setup->relief_target_mm.value;
    double turns;

    if (!setup_rod_turns(setup) || !relief.given || !setup->relief_target_mm.given ||
        !setup_is_off(relief.value - target_mm, setup->relief_tolerance_mm))
        return;
    if (!rod->sure || rod_history_find_next_turn(rod->fit.per_turn_mm, relief.value, target_mm,
                                                 &turns) != STATUS_OK)
        return;
    rod->turns_to_target = maybe_given(turns);
    /* turns = (r* - r)/p: what r and p carry, independent of each other. */
    rod->turns_to_target_u = maybe_given(hypot(2 * reading_u_mm, turns * rod->fit.per_turn_u_mm) /
                                         fabs(rod->fit.per_turn_mm));
    rod->next_turn = maybe_given(fmax(-ROD_TURN_AT_ONCE, fmin(ROD_TURN_AT_ONCE, turns)));
}

struct rod_walk rod_walk_of(const struct record *record)
{
    const struct place none = place_of(record, 0, 0);

    return (struct rod_walk){.at = none, .read = none};
}

void survey_rod_after(struct rod_walk *walk, struct place last, struct survey_rod *ret_rod,
                      struct findings *findings)
{
    struct survey_rod rod = {.known = false};
    struct setup setup = {.has_board = false};

    *ret_rod = rod;
    if (last.visit > 0 && place_is_after(walk->at, last))
        *walk = rod_walk_of(&last.record);
    go_on(walk, last, &setup);
    const double reading_u_mm = pass_read_told_mm(&setup, BELIEF_RELIEF);
    const struct rod_step *step = walk->step + walk->first;
    if (rod_history_fit(step, walk->count, reading_u_mm, &rod.fit) != STATUS_OK ||
        rod_history_judge(step, walk->count, reading_u_mm, &rod.answer) != STATUS_OK)
        return;
    rod.known = true;
    rod.sure = rod_history_is_sure(&rod.fit) && rod.answer != ROD_ANSWERS_NO_LONGER &&
               rod.answer != ROD_ANSWERS_BACKWARDS;
    rod.ended = rod.answer == ROD_ANSWERS_NO_LONGER &&
                rod_history_silent_turns(step, walk->count, reading_u_mm) > ROD_END_TURN - 1e-6;
    rod.way = copysign(1, step[walk->count - 1].turns);
    rod.stands = walk->stands;
    rod.slackest = walk->slackest;
    rod.tightest = walk->tightest;
    plan_turn(&setup, reading_u_mm, &rod);
    *ret_rod = rod;
    if (rod.answer == ROD_ANSWERS_NO_LONGER)
        findings_add(findings, FINDING_ROD_SILENT, 0);
    if (rod.answer == ROD_ANSWERS_BACKWARDS)
        findings_add(findings, FINDING_ROD_BACKWARDS, 0);
}

void survey_rod(struct place last, struct survey_rod *ret_rod, struct findings *findings)
{
    struct rod_walk walk = rod_walk_of(&last.record);

    survey_rod_after(&walk, last, ret_rod, findings);
}

bool survey_rod_is_silent(const struct survey_rod *rod)
{
    return rod->known && rod->answer == ROD_ANSWERS_NO_LONGER && rod->way > 0;
}

bool survey_rod_is_spent(const struct survey_rod *rod)
{
    return rod->known &&
           ((rod->ended && rod->way > 0) || rod->stands - rod->slackest >= ROD_TURNS_USUAL);
}

bool survey_rod_is_far(const struct survey_rod *rod, double change_mm, double *ret_turns,
                       double *ret_most)
{
    const double per_turn = fabs(rod->fit.per_turn_mm),
                 most_per_turn = per_turn + rod->fit.per_turn_u_mm;
    const double gone = change_mm < 0 ? rod->stands - rod->slackest : rod->tightest - rod->stands;
    const double most = fmax(ROD_TURNS_USUAL, rod->tightest - rod->slackest);

    if (!rod->known || rod->answer != ROD_ANSWERS || !(rod->fit.per_turn_mm < 0) ||
        !(gone + fabs(change_mm) / most_per_turn > most))
        return false;
    *ret_turns = gone + fabs(change_mm) / per_turn;
    *ret_most = most;
    return true;
}

enum rod_stop survey_rod_stop(const struct survey_rod *rod, double change_mm)
{
    if (!rod->known || rod->sure)
        return ROD_MAY_TURN;
    if (rod->answer == ROD_ANSWERS_BACKWARDS)
        return ROD_STRAYED;
    /* The other way nothing was tried. */
    if (rod->answer == ROD_ANSWERS_NO_LONGER && rod->way * change_mm < 0)
        return rod->ended ? ROD_SILENT : ROD_LOOSE;
    if (rod->answer == ROD_ANSWERS_NO_LONGER)
        return ROD_MAY_TURN;
    return ROD_UNPROVEN;
}

bool survey_rod_turns_held(const struct survey_rod *rod, double held_mm, double u_mm,
                           double *ret_turns, double *ret_u)
{
    const double per_turn = -rod->fit.per_turn_mm;

    if (!rod->known || rod->answer != ROD_ANSWERS || !(per_turn > 0) || !isfinite(held_mm) ||
        !isfinite(u_mm))
        return false;
    *ret_turns = held_mm / per_turn;
    *ret_u = hypot(u_mm, *ret_turns * rod->fit.per_turn_u_mm) / per_turn;
    return isfinite(*ret_turns) && isfinite(*ret_u);
}

struct maybe survey_rod_since(struct place place)
{
    struct place next = place;
    struct findings unused = {.count = 0};
    struct survey_rod rod;
    double turns = 0;

    while (place_next(&next) && next.visit == place.visit &&
           !record_is_read_pass(&next.record, next.visit, next.pass))
        turns += maybe_or(place_read(next, FIELD_ROD_TURN), 0);
    if (turns == 0)
        return maybe_given(0);
    survey_rod(place, &rod, &unused);
    return rod.known && rod.answer == ROD_ANSWERS ? maybe_finite(turns * rod.fit.per_turn_mm)
                                                  : maybe_absent();
}

const char *survey_rod_answer_name(enum rod_answer answer)
{
    switch (answer) {
    case ROD_ANSWER_UNKNOWN:
        break;
    case ROD_ANSWERS:
        return "answers";
    case ROD_ANSWERS_BACKWARDS:
        return "backwards";
    case ROD_ANSWERS_NO_LONGER:
        return "no-longer";
    }
    return "unknown";
}
