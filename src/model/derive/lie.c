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
    if (work_between(from, to, LIE_MOVES, string))
        return true;
    for (int pass = from.pass + 1; pass <= to.pass; pass++)
        if (reads_otherwise(from, place_of(&from.record, from.visit, pass), string))
            return true;
    return false;
}

/* Read in the pass itself: as work on one string asks. */
static bool is_read(const struct setup *setup, int string)
{
    return setup->action_mm[string].given &&
           (setup->nut_gap_mm[string].given || !outfit_has_slot(&setup->outfit, string));
}

/* Whether a pass read nothing of the strings but whole ones; the relief may be read with these. */
static bool is_of_strings(const struct setup *setup)
{
    int count = 0;

    for (int s = 1; s <= setup->board.strings; s++) {
        if (!is_read(setup, s) && (setup->action_mm[s].given || setup->nut_gap_mm[s].given))
            return false;
        count += is_read(setup, s);
    }
    return setup->relief_count == 0 || count > 0;
}

/* What was read again may lie otherwise by work on that string; where none is logged, nobody knows
 * what else was worked on. */
static bool any_is_other(struct place from, struct place to, const struct setup *setup)
{
    for (int s = 1; s <= setup->board.strings; s++)
        if (is_read(setup, s) ? !work_between(from, to, LIE_MOVES, s) && lie_is_other(from, to, s)
                              : lie_is_other(from, to, s))
            return true;
    return false;
}

/* What *setup does not have yet. */
static void take_string(struct setup *setup, const struct setup *then, int string)
{
    if (!setup->nut_gap_mm[string].given) {
        setup->nut_gap_mm[string] = then->nut_gap_mm[string];
        setup->nut_gap_unsure[string] = then->nut_gap_unsure[string];
    }
    if (!setup->action_mm[string].given) {
        setup->action_mm[string] = then->action_mm[string];
        setup->action_unsure[string] = then->action_unsure[string];
    }
}

static bool any_gap(const struct setup *setup)
{
    for (int s = 1; s <= setup->board.strings; s++)
        if (setup->nut_gap_mm[s].given)
            return true;
    return false;
}

/* The gaps of two methods do not make one row. */
static void take_heights(struct setup *setup, const struct setup *then)
{
    if (!any_gap(setup))
        setup->nut_method = then->nut_method;
    if (setup->relief_count == 0) {
        memcpy(setup->relief, then->relief, sizeof setup->relief);
        setup->relief_count = then->relief_count;
    }
    for (int s = 1; s <= setup->board.strings && setup->nut_method == then->nut_method; s++)
        take_string(setup, then, s);
    if (!setup->fall_away_mm.given)
        setup->fall_away_mm = then->fall_away_mm;
}

/* Whether passes before may have any of it: most passes read every height, and none a fall-away. */
static bool lacks_any(const struct setup *setup, struct place place, int first)
{
    for (int s = 1; s <= setup->board.strings; s++)
        if (outfit_is_read(&setup->outfit, s) &&
            !(setup->nut_gap_mm[s].given && setup->action_mm[s].given))
            return true;
    for (int pass = first; pass < place.pass && !setup->fall_away_mm.given; pass++)
        if (place_read(place_of(&place.record, place.visit, pass), FIELD_FALL_AWAY).given)
            return true;
    return setup->relief_count == 0;
}

static void take_lie(struct setup *setup, struct place place, int first)
{
    const struct setup read = *setup;

    for (int pass = place.pass - 1; pass >= first; pass--) {
        const struct place from = place_of(&place.record, place.visit, pass);
        struct findings unused = {.count = 0};
        struct setup then;

        if (any_is_other(from, place, &read))
            return;
        setup_read(&then, from, &unused);
        take_heights(setup, &then);
    }
}

bool lie_is_dressed(struct place from, struct place to)
{
    return work_between(from, to, CROWN_MOVES, 0);
}

static void take_spots(struct setup *setup, struct place place, int first)
{
    for (int pass = place.pass - 1; pass >= first; pass--) {
        const struct place from = place_of(&place.record, place.visit, pass);

        if (lie_is_dressed(from, place))
            return;
        const uint64_t level = work_rocked_between(from, place);
        for (int n = 1; n <= setup->board.frets; n++)
            if (!setup->spot_mm[n].given)
                setup->spot_mm[n] =
                    level >> n & 1 ? maybe_given(0) : place_read_at(from, FIELD_SPOT, 0, n);
    }
}

void lie_take(struct setup *setup, struct place place)
{
    const int first = lie_first_pass(place);

    if (!setup->has_board || place.pass > record_last_read_pass(&place.record, place.visit))
        return;
    take_spots(setup, place, first);
    if (is_of_strings(setup) && lacks_any(setup, place, first))
        take_lie(setup, place, first);
}
