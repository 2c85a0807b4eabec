/* SPDX-License-Identifier: MIT */
#include "model/derive/derive.h"

#include <stddef.h>
#include <string.h>

#include "model/derive/derive_belief.h"
#include "model/derive/derive_break.h"
#include "model/derive/derive_climate.h"
#include "model/derive/derive_heard_moves.h"
#include "model/derive/derive_neck.h"
#include "model/derive/derive_pitch_u.h"
#include "model/derive/derive_saddle_top.h"
#include "model/derive/lie.h"
#include "model/setup/uncertainty.h"
#include "model/setup/work_done.h"

static void advise_rod(struct derived *derived)
{
    const struct move *rod = &derived->moves.move[MOVE_ROD];

    if (setup_rod_turns(&derived->setup) && (rod->stop == ROD_SILENT || rod->stop == ROD_LOOSE) &&
        rod->amount.off)
        findings_add(&derived->findings, FINDING_ROD_SILENT, 0);
    if (rod->needs == NEED_ROD_WAY)
        findings_add(&derived->findings, FINDING_ROD_BACKWARDS, 0);
    if (rod->state < MOVE_WAITS)
        return;
    if (derived->moves.relief.mm.value < 0)
        findings_add(&derived->findings, FINDING_BACK_BOW, 0);
    if (!setup_rod_turns(&derived->setup))
        findings_add(&derived->findings, FINDING_ROD_NONE, 0);
    if (derived->setup.rod == ROD_ONE_WAY && rod->amount.value > 0)
        findings_add(&derived->findings, FINDING_ROD_ONE_WAY, 0);
}

static void advise_slots(struct derived *derived)
{
    const struct move *slots = &derived->moves.move[MOVE_SLOTS];
    const struct outfit *outfit = &derived->setup.outfit;

    /* Under a bar the nut is raised as a whole. */
    for (int s = 1; !outfit->lap && s <= derived->setup.board.strings; s++)
        if (slots->string[s].due && slots->string[s].value > 0)
            findings_add_string(&derived->findings,
                                outfit->zero_fret ? FINDING_ZERO_FRET_LOW : FINDING_SLOT_LOW,
                                outfit, s);
}

static void advise_again(struct derived *derived)
{
    static const enum finding_id again[BELIEF_ROWS_] = {
        [BELIEF_RELIEF] = FINDING_RELIEF_AGAIN,
        [BELIEF_GAP] = FINDING_GAP_AGAIN,
        [BELIEF_ACTION] = FINDING_ACTION_AGAIN,
    };

    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= derived->setup.board.strings; s++)
            if (derived->moves.questioned[row][s])
                findings_add_string(&derived->findings, again[row], &derived->setup.outfit, s);
}

/* Where the frets' chord meets the saddle: below its top by what the strings have over it. */
static void find_straightedge(struct derived *derived)
{
    const struct setup *setup = &derived->setup;
    const struct string_line *treble = &derived->lines.after[1];
    const struct string_line *bass = &derived->lines.after[setup->board.strings];
    struct move *reset = &derived->moves.move[MOVE_RESET];

    if (reset->state == MOVE_DUE && bass->known && treble->known)
        reset->straightedge =
            maybe_given(setup->exposure_new_mm - (bass->saddle_mm + treble->saddle_mm) / 2);
}

/* The figures' ±. Of the moves only a reset goes by a figure, and has its ±. */
static void derive_doubt(struct derived *derived)
{
    struct move *reset = &derived->moves.move[MOVE_RESET];

    if (derived->depth < DERIVE_FIGURES && !reset->amount.known)
        return;
    uncertainty_solve(&derived->setup, &derived->choice, &derived->figures);
    if (reset->amount.known)
        reset->amount.u = reset->most_u = derived->figures.at[FIGURE_ANGLE][0].u;
}

/* Set-up, moves and reset. */
static void derive_setup(const struct belief *belief, struct derived *derived)
{
    const struct setup *setup = &derived->setup;

    moves_solve(setup, NULL, &derived->figures, &derived->choice, &derived->lines);
    reset_solve(setup, &derived->figures);
    move_set_find(setup, &derived->figures, belief, &derived->moves);
    derive_doubt(derived);
    find_straightedge(derived);
    advise_rod(derived);
    advise_again(derived);
    if (derived->moves.move[MOVE_RESET].state == MOVE_DUE)
        findings_add(&derived->findings, FINDING_EXPOSURE_SHORT, 0);
}

/* What was heard in a pass, as the strings lie. */
static void listen(struct place place, const struct setup *setup,
                   const struct fret_clearance *clearance, struct heard_pass *ret_heard)
{
    ret_heard->place = place;
    ret_heard->outfit = setup->outfit;
    for (int s = 1; s <= setup->board.strings; s++) {
        const struct heard_notes notes =
            heard_in_pass(place, s, setup->board.start_fret[s], setup->board.frets);

        ret_heard->clean[s] = notes.clean;
        ret_heard->buzzing[s] = notes.buzzing;
        memcpy(ret_heard->headroom_mm[s], clearance[s].headroom_mm,
               sizeof ret_heard->headroom_mm[s]);
    }
}

/* The same in an earlier pass, with the strings as they lay then. */
static void listen_back(struct heard_pass *heard)
{
    struct derived then = {.findings = {.count = 0}};
    const struct place place = heard->place;

    heard->known = true;
    heard->outfit.strings = 0;
    setup_read(&then.setup, place, &then.findings);
    lie_take(&then.setup, place);
    if (!then.setup.has_board)
        return;
    moves_solve(&then.setup, NULL, &then.figures, &then.choice, &then.lines);
    derive_strings(&place.record, &then.setup, then.string, &then.figures, &then.findings);
    derive_pitch(&place.record, &then.setup, then.string, &then.lines, then.pitch);
    derive_headroom(&place.record, &then.setup, then.string, &then.lines, then.pitch,
                    then.clearance);
    listen(place, &then.setup, then.clearance, heard);
}

static void add_heard(const struct heard_pass *heard, struct touch_bounds *bounds)
{
    struct touch_heard all[STRINGS_MAX + 1];

    for (int s = 1; s <= heard->outfit.strings; s++)
        all[s] = (struct touch_heard){.clean = heard->clean[s],
                                      .buzzing = heard->buzzing[s],
                                      .headroom_mm = heard->headroom_mm[s]};
    touch_hear(bounds, &heard->place.record, &heard->outfit, all);
}

/* What the passes in which notes were listened to say of the touch. `derived` is of `place`; NULL:
 * none of them is that one. */
static void find_bounds(struct place place, const struct derived *derived, struct past *past)
{
    past->bounds = (struct touch_bounds){.least = maybe_absent()};
    for (int i = 0; i < past->heard_count; i++) {
        struct heard_pass *heard = &past->heard[i];

        if (derived && heard->place.visit == place.visit && heard->place.pass == place.pass)
            listen(place, &derived->setup, derived->clearance, heard);
        else if (!heard->known)
            listen_back(heard);
        add_heard(heard, &past->bounds);
    }
    past->has_bounds = true;
}

/* How hard the owner plays, who plays alike whatever is done to the instrument. */
static void derive_touch(struct place place, struct past *past, struct derived *derived)
{
    const struct setup *setup = &derived->setup;

    past_hear(past, place, setup->board.strings);
    if (!past->has_bounds)
        find_bounds(place, derived, past);
    derived->touch = touch_as_stated(&place.record, &setup->outfit);
    touch_listen(&derived->touch, &place.record, &setup->outfit, &past->bounds);
}

/* The headroom of the notes, how hard they are played, and the frets that buzz. */
static void derive_clearance(struct place place, struct past *past, struct derived *derived)
{
    derive_headroom(&place.record, &derived->setup, derived->string, &derived->lines,
                    derived->pitch, derived->clearance);
    derive_touch(place, past, derived);
    derive_high_frets(place, &derived->setup, derived->string, &derived->lines, derived->pitch,
                      &derived->touch, derived->clearance);
}

/* How the strings sound and clear the frets. */
static void derive_sound(struct place place, struct past *past, struct derived *derived)
{
    const struct record *record = &place.record;
    const struct setup *setup = &derived->setup;

    derive_pitch(record, setup, derived->string, &derived->lines, derived->pitch);
    derive_setbacks(record, setup, derived->string, &derived->lines, &derived->figures);
    derive_saddle_top(record, setup, derived->string, &derived->lines, &derived->figures);
    derive_clearance(place, past, derived);
}

/* The moves that ear and tuner ask for. Only a buzz needs to know how the strings clear the frets.
 */
static void derive_by_ear(struct place place, struct past *past, struct derived *derived)
{
    const struct setup *setup = &derived->setup;

    if (!setup->has_board)
        return;
    const bool sound = derived->depth >= DERIVE_FIGURES || derive_hears_buzz(place, &setup->board);
    if (sound || derived->depth >= DERIVE_PULL)
        derive_strings(&place.record, setup, derived->string, &derived->figures,
                       &derived->findings);
    if (sound)
        derive_sound(place, past, derived);
    derive_cents_read(place, &derived->setup, &derived->figures);
    derive_heard_moves(place, derived, &derived->moves);
}

/* What the record's past says of a rod that is due; where it says nothing, what other necks do. */
static void look_back(struct place place, const struct rod_prior *others, struct past *past,
                      struct derived *derived)
{
    struct move *move = &derived->moves.move[MOVE_ROD];
    const struct survey_rod *rod = past_rod(past, place);

    if (rod->sure)
        move_set_turns(&derived->moves, rod->fit.per_turn_mm);
    else if (!rod->known && others && setup_rod_turns(&derived->setup))
        move_set_turns_of_others(&derived->moves, others);
    move->far.known = survey_rod_is_far(rod, move->amount.value, &move->far.turns, &move->far.most);
    if (move->far.known)
        findings_add(&derived->findings, FINDING_ROD_FAR, 0);
}

static void look_at_season(struct place place, struct past *past, struct derived *derived)
{
    const struct setup *setup = &derived->setup;
    const struct move *rod = &derived->moves.move[MOVE_ROD];

    if (rod->holds ? rod->state == MOVE_DUE && season_is_other(&past->season, setup, place.visit)
                   : season_has_moved(&past->season, setup, place.visit))
        move_set_wait_for_season(&derived->moves);
    move_set_came_in(&derived->moves, setup, season_of_air(&place.record, place.visit),
                     rod->state == MOVE_DUE && !past_rod(past, place)->sure);
}

static void wait_for_reading(struct place place, struct derived *derived)
{
    struct work_done rod;

    work_done_find(place, &derived->setup, &derived->moves, MOVE_ROD, &rod);
    move_set_wait_for_reading(&derived->moves, &derived->setup, rod.turns);
}

static void derive_moves(struct place place, enum derive_depth depth,
                         const struct rod_prior *others, struct past *past,
                         struct derived *ret_derived)
{
    struct belief belief;

    *ret_derived = (struct derived){.depth = depth};
    setup_read(&ret_derived->setup, place, &ret_derived->findings);
    derive_belief(place, &ret_derived->setup, &past->belief, &belief);
    lie_take(&ret_derived->setup, place);
    derive_setup(&belief, ret_derived);
    if (ret_derived->moves.move[MOVE_ROD].state == MOVE_DUE)
        look_back(place, others, past, ret_derived);
    look_at_season(place, past, ret_derived);
    advise_slots(ret_derived);
    if (depth < DERIVE_ASKED)
        move_set_mark(&ret_derived->moves, place);
    if (depth > DERIVE_GAUGED)
        derive_by_ear(place, past, ret_derived);
    if (depth < DERIVE_ASKED)
        wait_for_reading(place, ret_derived);
}

void derive_gauged(struct place place, struct past *past, struct derived *ret_derived)
{
    derive_moves(place, DERIVE_GAUGED, NULL, past, ret_derived);
}

void derive_measured(struct place place, struct past *past, struct derived *ret_derived)
{
    derive_moves(place, DERIVE_MOVES, NULL, past, ret_derived);
}

static void derive_state(struct place place, int climate_visit, const struct rod_prior *others,
                         enum derive_depth depth, struct past *past, struct derived *ret_derived)
{
    const struct record *record = &place.record;
    struct derived *derived = ret_derived;

    derive_moves(place, depth, others, past, derived);
    derive_climate(record, climate_visit, &derived->figures);
    if (depth < DERIVE_PULL)
        return;
    derive_break(record, &derived->setup, &derived->figures);
    if (depth < DERIVE_FIGURES)
        return;
    derive_neck(record, &derived->setup, &derived->lines, &derived->figures, &derived->findings);
    derived->neck = neck_facts_read(record, &derived->setup);
}

void derive_pass(struct place place, struct derived *ret_derived)
{
    derive_pass_among(place, NULL, DERIVE_FIGURES, ret_derived);
}

void derive_pass_among(struct place place, const struct rod_prior *others, enum derive_depth depth,
                       struct derived *ret_derived)
{
    struct past past = past_of(&place.record);

    derive_state(place, place.visit, others, depth, &past, ret_derived);
}

void derive_pass_after(struct place place, struct past *past, struct derived *ret_derived)
{
    derive_state(place, place.visit, NULL, DERIVE_FIGURES, past, ret_derived);
}

/* The passes of its own visit; any before that have no part in what is believed. */
static void believe_before(struct place before, struct past *past)
{
    struct findings unused = {.count = 0};
    struct belief belief;
    struct setup setup;

    setup_read(&setup, before, &unused);
    derive_belief(before, &setup, &past->belief, &belief);
}

void derive_past(struct place place, struct past *ret_past)
{
    struct findings unused = {.count = 0};
    struct place before = place;
    struct setup setup;

    *ret_past = past_of(&place.record);
    outfit_read(&ret_past->outfit, &place.record, place.visit);
    if (!place_before(&before))
        return;
    setup_read(&setup, place, &unused);
    past_visits(ret_past, &setup, place);
    if (before.visit == place.visit)
        believe_before(before, ret_past);
    past_hear(ret_past, before, setup.board.strings);
    find_bounds(before, NULL, ret_past);
}

/* What is read in a pass can make a string of a course be read by itself, in the passes before it
 * too. */
static bool reads_alike(const struct outfit *a, const struct outfit *b)
{
    return a->exposed == b->exposed && memcmp(a->read_as, b->read_as, sizeof a->read_as) == 0;
}

void derive_pass_on(struct place place, const struct past *before, const struct rod_prior *others,
                    enum derive_depth depth, struct derived *ret_derived)
{
    struct outfit outfit;
    struct past past = *before;

    outfit_read(&outfit, &place.record, place.visit);
    if (!reads_alike(&outfit, &past.outfit)) {
        derive_pass_among(place, others, depth, ret_derived);
        return;
    }
    past_move_to(&past, &place.record);
    derive_state(place, place.visit, others, depth, &past, ret_derived);
}

void derive_predicted_u(struct place place, struct derived *derived)
{
    if (derived->setup.has_board && !derived->has_predicted_u)
        derive_pitch_u(place, &derived->setup, derived->string, &derived->lines, derived->pitch,
                       &derived->figures);
    derived->has_predicted_u = true;
}

void derive_current(const struct record *record, struct derived *ret_derived)
{
    struct past past = past_of(record);

    derive_state(place_current(record), record_last_visit(record), NULL, DERIVE_FIGURES, &past,
                 ret_derived);
}
