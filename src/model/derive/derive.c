/* SPDX-License-Identifier: MIT */
#include "model/derive/derive.h"

#include "model/derive/derive_climate.h"
#include "model/derive/derive_neck.h"
#include "model/setup/uncertainty.h"

static void advise_rod(struct derived *derived)
{
    const struct maybe relief = figures_get(&derived->figures, FIGURE_RELIEF, 0);

    if (!derived->choice.rod || !relief.given)
        return;
    if (relief.value < 0)
        findings_add(&derived->findings, FINDING_BACK_BOW, 0);
    if (derived->setup.rod == ROD_NONE || derived->setup.rod == ROD_FIXED)
        findings_add(&derived->findings, FINDING_ROD_NONE, 0);
    if (derived->setup.rod == ROD_ONE_WAY && relief.value < derived->setup.relief_target_mm.value)
        findings_add(&derived->findings, FINDING_ROD_ONE_WAY, 0);
}

static void advise_slots(struct derived *derived)
{
    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (figures_get(&derived->figures, FIGURE_SLOT_CHANGE, s).value > 0)
            findings_add(&derived->findings, FINDING_SLOT_LOW, s);
}

/* Set-up, moves and reset, with their uncertainty. */
static void derive_setup(struct derived *derived)
{
    const struct setup *setup = &derived->setup;

    moves_solve(setup, NULL, &derived->figures, &derived->choice, &derived->lines);
    reset_solve(setup, &derived->figures);
    uncertainty_solve(setup, &derived->choice, &derived->figures);
    derived->verdict = reset_verdict(setup, &derived->figures);
    move_set_find(setup, &derived->figures, &derived->choice, derived->verdict, &derived->moves);
    advise_rod(derived);
    advise_slots(derived);
    if (derived->verdict == RESET_NECK)
        findings_add(&derived->findings, FINDING_EXPOSURE_SHORT, 0);
}

/* What the strings are, and how they sound, clear the frets and bend the neck. */
static void derive_sound(struct place place, struct derived *derived)
{
    const struct record *record = place.record;
    const struct setup *setup = &derived->setup;

    derived->touch_mm = derive_touch_mm(record);
    if (!setup->has_board)
        return;
    derive_strings(record, setup, derived->string, &derived->figures, &derived->findings);
    derive_pitch(record, setup, derived->string, &derived->lines, derived->pitch,
                 &derived->figures);
    derive_cents_read(place, setup, &derived->figures);
    derive_clearance(place, setup, derived->string, &derived->lines, derived->pitch,
                     derived->clearance);
}

static void derive_state(struct place place, int climate_visit, struct derived *ret_derived)
{
    *ret_derived = (struct derived){.verdict = RESET_UNKNOWN};
    setup_read(&ret_derived->setup, place, &ret_derived->findings);
    derive_setup(ret_derived);
    move_set_mark(&ret_derived->moves, place);
    derive_sound(place, ret_derived);
    derive_neck(place.record, &ret_derived->setup, &ret_derived->lines, &ret_derived->figures,
                &ret_derived->findings);
    ret_derived->neck = neck_facts_read(place.record, &ret_derived->setup);
    derive_climate(place.record, climate_visit, &ret_derived->figures);
}

void derive_pass(struct place place, struct derived *ret_derived)
{
    derive_state(place, place.visit, ret_derived);
}

void derive_current(const struct record *record, struct derived *ret_derived)
{
    derive_state(place_current(record), record_last_visit(record), ret_derived);
}
