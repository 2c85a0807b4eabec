/* SPDX-License-Identifier: MIT */
#include "model/setup/work_done.h"

#include <math.h>

#include "model/reading/work_amount.h"
#include "model/reading/work_line.h"

/* A shim under the nut lifts all strings that lie on it. */
double work_planned_mm(const struct setup *setup, const struct move *move, int string)
{
    const struct move_amount *plan = &move->string[string];

    if (move->raise.given && outfit_has_slot(&setup->outfit, string))
        return move->raise.value;
    return plan->due ? plan->value : move->state == MOVE_DUE ? 0 : (double)NAN;
}

/* Of one string, mm for one of what is said. One number for a nut that is raised is of all. */
static double said_mm(const struct setup *setup, const struct move *move,
                      const struct work_amount *said, double unit_mm, int string)
{
    const struct move_amount *plan = &move->string[string];
    const int at = said->is_said[string] ? string : 0;

    if (!said->is_said[at])
        return 0; /* it names the strings that were worked on */
    if (at == 0 && move->raise.given)
        return outfit_has_slot(&setup->outfit, string) ? said->value[at] * unit_mm : 0;
    if (at == 0 && !plan->due)
        return 0;
    if (said->has_sign[at])
        return said->value[at] * unit_mm;
    return plan->due ? copysign(said->value[at] * unit_mm, plan->value) : (double)NAN;
}

/* Turns logged for the pass after tell more than the line. Without a sign the rod was turned the
 * way it was due: tighter where relief is to come out, but for one that turns the other way. */
static void find_turns(struct place place, const struct move *rod, const struct work_amount *said,
                       struct work_done *done)
{
    done->turns = place_read(place_of(&place.record, place.visit, place.pass + 1), FIELD_ROD_TURN);
    if (done->turns.given) {
        done->is_said = true;
        return;
    }
    done->is_said = said->unit == WORK_AMOUNT_TURNS && said->is_said[0];
    if (done->is_said && (said->has_sign[0] || rod->state == MOVE_DUE))
        done->turns =
            maybe_given(said->has_sign[0] ? said->value[0]
                                          : copysign(said->value[0], move_tightens(rod) ? 1 : -1));
}

/* What was turned at the posts, at the outer strings. */
static void bring_to_strings(const struct setup *setup, struct work_done *done)
{
    const struct outfit *outfit = &setup->outfit;
    const double bass = done->mm[outfit_first(outfit, outfit->strings)], treble = done->mm[1];

    for (int s = 1; s <= outfit->strings; s++)
        if (setup_has_own_height(setup, s))
            done->mm[s] = outfit_step(outfit, s) == 0 ? setup_at_string(setup, treble, bass)
                                                      : setup_at_string(setup, bass, treble);
}

bool work_done_is_unread(const struct setup *setup, enum move_kind kind, const char *text)
{
    struct work_amount said;

    if (kind != MOVE_ROD && kind != MOVE_SLOTS && kind != MOVE_SADDLE)
        return work_amount_is_bare(text);
    work_amount_find(text, &setup->outfit, &said);
    if (kind == MOVE_ROD)
        return said.unread || (said.unit != WORK_AMOUNT_NONE &&
                               !(said.unit == WORK_AMOUNT_TURNS && said.is_said[0]));
    return said.unread || (said.unit == WORK_AMOUNT_TURNS && !setup->thread_mm.given);
}

void work_done_find(struct place place, const struct setup *setup, const struct move_set *planned,
                    enum move_kind kind, struct work_done *ret_done)
{
    const struct move *move = &planned->move[kind];
    const struct reading_key key = work_key(WORK_AMOUNT, place.visit, move->done_by);
    const char *text = move->done_by > 0 ? record_text(&place.record, &key) : NULL;
    struct work_amount said;

    *ret_done = (struct work_done){.is_said = false};
    work_amount_find(text, &setup->outfit, &said);
    if (kind == MOVE_ROD)
        find_turns(place, move, &said, ret_done);
    ret_done->unread = text && !ret_done->turns.given && work_done_is_unread(setup, kind, text);
    if (kind == MOVE_ROD || move->done_by == 0 || setup->outfit.strings == 0)
        return;
    const double unit_mm = said.unit == WORK_AMOUNT_TURNS ? maybe_or(setup->thread_mm, 0) : 1;
    ret_done->is_said = said.unit != WORK_AMOUNT_NONE && unit_mm > 0;
    for (int s = 1; s <= setup->board.strings; s++)
        ret_done->mm[s] = ret_done->is_said ? said_mm(setup, move, &said, unit_mm, s)
                                            : work_planned_mm(setup, move, s);
    if (said.unit == WORK_AMOUNT_TURNS && ret_done->is_said &&
        (setup->post_ratio.given || setup->post_lever.given))
        bring_to_strings(setup, ret_done);
    if (kind == MOVE_SADDLE)
        setup_carry_inner(setup, ret_done->mm);
}

bool work_done_reaches(const struct work_done *done, const struct move_set *planned,
                       const struct setup *setup, enum move_kind kind, int string)
{
    if (planned->move[kind].done_by > 0 && move_is_by_string(kind) && string > 0 &&
        !setup->outfit.lap)
        return done->mm[string] != 0;
    return planned->move[kind].done_by > 0 || move_reaches(planned, setup, kind, string);
}
