/* SPDX-License-Identifier: MIT */
#include "model/derive/lie.h"

#include <math.h>
#include <string.h>

#include "model/reading/work_since.h"

/* What changes how a string lies over the frets; its end at the saddle goes back and forth alone.
 */
#define LIE_MOVES (~MOVE_BIT(MOVE_PITCH))

/* What changes how a crown stands among its neighbours; of a tech's own lines nobody knows. */
#define CROWN_MOVES (MOVE_BIT(MOVE_FRETS) | MOVE_BIT(MOVE_RESET) | MOVE_BIT(MOVE_COUNT_))

int lie_first_pass(struct place place)
{
    const int passes_back = 12;

    return place.pass > passes_back ? place.pass - passes_back : 1;
}

/* A reading that is off by more than the steps of both explain. */
static bool is_moved(struct place from, struct place to, enum field_id field, int string)
{
    const struct maybe before = place_read_at(from, field, string, 0);
    const struct maybe now = place_read_at(to, field, string, 0);
    const struct maybe step = record_step(&to.record, field_get(field));

    return before.given && now.given && fabs(now.value - before.value) > 2 * step.value + 1e-9;
}

/* The gaps of two methods are not the same gap. */
static bool reads_otherwise(struct place from, struct place to, int string)
{
    const double before = maybe_or(place_read(from, FIELD_NUT_METHOD), 0);
    const double now = maybe_or(place_read(to, FIELD_NUT_METHOD), 0);

    return is_moved(from, to, FIELD_RELIEF, 0) || is_moved(from, to, FIELD_ACTION, string) ||
           (fabs(before - now) < 0.5 && is_moved(from, to, FIELD_NUT_GAP, string));
}

bool lie_is_other(struct place from, struct place to, int string)
{
    if (work_between(from, to, LIE_MOVES))
        return true;
    for (int pass = from.pass + 1; pass <= to.pass; pass++)
        if (reads_otherwise(from, place_of(&from.record, from.visit, pass), string))
            return true;
    return false;
}

static bool is_any_given(const struct setup *setup, const struct maybe *read)
{
    for (int s = 1; s <= setup->board.strings; s++)
        if (read[s].given)
            return true;
    return false;
}

static bool any_is_other(struct place from, struct place to, int strings)
{
    for (int s = 1; s <= strings; s++)
        if (lie_is_other(from, to, s))
            return true;
    return false;
}

/* The rows that *setup does not have yet. */
static void take_rows(struct setup *setup, const struct setup *then)
{
    if (setup->relief_count == 0) {
        memcpy(setup->relief, then->relief, sizeof setup->relief);
        setup->relief_count = then->relief_count;
    }
    if (!is_any_given(setup, setup->nut_gap_mm)) {
        memcpy(setup->nut_gap_mm, then->nut_gap_mm, sizeof setup->nut_gap_mm);
        memcpy(setup->nut_gap_unsure, then->nut_gap_unsure, sizeof setup->nut_gap_unsure);
        setup->nut_method = then->nut_method;
    }
    if (!is_any_given(setup, setup->action_mm)) {
        memcpy(setup->action_mm, then->action_mm, sizeof setup->action_mm);
        memcpy(setup->action_unsure, then->action_unsure, sizeof setup->action_unsure);
    }
    if (!setup->fall_away_mm.given)
        setup->fall_away_mm = then->fall_away_mm;
}

static void take_lie(struct setup *setup, struct place place, int first)
{
    for (int pass = place.pass - 1; pass >= first; pass--) {
        const struct place from = place_of(&place.record, place.visit, pass);
        struct findings unused = {.count = 0};
        struct setup then;

        if (any_is_other(from, place, setup->board.strings))
            return;
        setup_read(&then, from, &unused);
        take_rows(setup, &then);
    }
}

static void take_spots(struct setup *setup, struct place place, int first)
{
    for (int pass = place.pass - 1; pass >= first; pass--) {
        const struct place from = place_of(&place.record, place.visit, pass);

        if (work_between(from, place, CROWN_MOVES))
            return;
        for (int n = 1; n <= setup->board.frets; n++)
            if (!setup->spot_mm[n].given)
                setup->spot_mm[n] = place_read_at(from, FIELD_SPOT, 0, n);
    }
}

void lie_take(struct setup *setup, struct place place)
{
    const int first = lie_first_pass(place);

    if (!setup->has_board || place.pass > record_last_read_pass(&place.record, place.visit))
        return;
    take_spots(setup, place, first);
    if (setup->relief_count == 0 && !is_any_given(setup, setup->nut_gap_mm) &&
        !is_any_given(setup, setup->action_mm))
        take_lie(setup, place, first);
}
