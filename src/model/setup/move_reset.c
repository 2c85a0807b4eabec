/* SPDX-License-Identifier: MIT */
#include "model/setup/move_reset.h"

#include <math.h>

#include "model/setup/uncertainty.h"

/* What is left of an exposure once the saddle is where it should be, and the most that it may be:
 * nobody resets a neck on a doubt. */
struct exposure {
    bool known;
    double after_mm, most_mm;
};

static struct exposure find_exposure(const struct setup *setup, const struct maybe *read,
                                     const struct move_amount *saddle)
{
    const double change = saddle->due ? saddle->value : 0;
    const double u =
        hypot(2 * uncertainty_of_step(setup->rule_step_mm), saddle->due ? saddle->u : 0);

    return (struct exposure){.known = read->given && saddle->known,
                             .after_mm = read->value + change,
                             .most_mm = read->value + change + u};
}

/* Outer exposures that differ by more than this after the saddle's move: the neck leans (memory).
 */
#define LEAN_MM 0.8

/* The angle that the pass's own figures give, its ± left to who has that of the figures, and how
 * far the saddle moves under each string once the neck has it. */
static void plan_reset(const struct setup *setup, const struct figures *figures,
                       const struct move *saddle, struct move *move)
{
    const struct board *board = &setup->board;
    const struct maybe angle = figures_get(figures, FIGURE_ANGLE, 0);

    if (!angle.given)
        return;
    move->amount = (struct move_amount){.known = true, .due = true, .value = angle.value};
    move->state = MOVE_DUE;
    for (int s = 1; s <= board->strings; s++)
        if (saddle->string[s].known)
            move->saddle_then[s] = maybe_given(
                saddle->string[s].value +
                angle.value * (board->contact_mm[s] - board->station_mm[s][board->join_fret]));
}

/* Whether the action of an outer string, on which a reset rests, was read, not taken from others.
 */
static bool is_read(const struct setup *setup, const struct belief *belief, int string)
{
    return belief->own[BELIEF_ACTION][setup->outfit.read_as[string]];
}

/* Under this much saddle, mm, the strings break over it too little, wherever they lie (common
 * practice: 1/16 in). */
#define EXPOSURE_NEVER_MM 1.6

/* A saddle that is to go lower than the least asks for a reset; a neck on target is not reset for
 * one that stands a little under what its shop likes to see. */
static bool is_short(const struct setup *setup, const struct exposure *left,
                     const struct move_amount *saddle)
{
    const double least = saddle->due && saddle->value < 0
                             ? setup->exposure_min_mm
                             : fmin(setup->exposure_min_mm, EXPOSURE_NEVER_MM);

    return left->most_mm < least;
}

static void find_reset(const struct setup *setup, const struct figures *figures,
                       const struct belief *belief, const struct move *saddle, struct move *move)
{
    const struct exposure bass = find_exposure(setup, &belief->exposure[setup->board.strings],
                                               &saddle->string[setup->board.strings]);
    const struct exposure treble = find_exposure(setup, &belief->exposure[1], &saddle->string[1]);

    if (bass.known && treble.known) {
        move->state = MOVE_GOOD;
        move->little = fmin(bass.after_mm, treble.after_mm) < setup->exposure_low_mm;
        /* A bridge in one piece that is cut too low is made anew: the neck stays. */
        if (!setup->outfit.one_piece &&
            (is_short(setup, &bass, &saddle->string[setup->board.strings]) ||
             is_short(setup, &treble, &saddle->string[1]))) {
            move->state = MOVE_UNKNOWN;
            if (is_read(setup, belief, 1) && is_read(setup, belief, setup->board.strings))
                plan_reset(setup, figures, saddle, move);
            move->is_asked = move->state == MOVE_UNKNOWN;
            if (fabs(bass.after_mm - treble.after_mm) > LEAN_MM)
                move->lean = maybe_given(bass.after_mm - treble.after_mm);
        }
    }
    if (move->state == MOVE_UNKNOWN && outfit_asks(&setup->outfit, FIELD_EXPOSURE_BASS, 0))
        move->needs = NEED_EXPOSURE;
}

/* By an exposure of an earlier pass the saddle is too short, and how far the neck goes back follows
 * from one of this pass: nothing is cut or turned before it is read. */
static void ask_exposure(const struct setup *setup, struct move_set *moves)
{
    const struct move *reset = &moves->move[MOVE_RESET];

    if (!reset->is_asked || (setup->exposure_bass_mm.given && setup->exposure_treble_mm.given))
        return;
    for (int kind = MOVE_SLOTS; kind <= MOVE_SADDLE; kind++) {
        struct move *move = &moves->move[kind];

        if (move->state != MOVE_DUE)
            continue;
        for (int s = 1; s <= setup->board.strings; s++)
            move->string[s].due = false;
        move->raise.given = false;
        move->state = MOVE_UNKNOWN;
        move->needs = NEED_EXPOSURE_FIRST;
    }
}

/* Of every saddle that was read. */
static void find_short(const struct setup *setup, const struct belief *belief, struct move *saddle)
{
    for (int s = 1; s <= setup->board.strings; s++) {
        const struct exposure left = find_exposure(setup, &belief->exposure[s], &saddle->string[s]);

        if (saddle->string[s].due && left.known && left.most_mm < setup->exposure_min_mm)
            saddle->short_mm[s] = maybe_given(setup->exposure_min_mm - left.after_mm);
    }
}

void move_find_reset(const struct setup *setup, const struct figures *figures,
                     const struct belief *belief, struct move_set *moves)
{
    find_reset(setup, figures, belief, &moves->move[MOVE_SADDLE], &moves->move[MOVE_RESET]);
    ask_exposure(setup, moves);
    find_short(setup, belief, &moves->move[MOVE_SADDLE]);
}
