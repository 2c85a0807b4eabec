/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_assumed.h"

#include <math.h>
#include <stddef.h>

#include "model/derive/derive_calibration.h"
#include "model/strings/string_set.h"

static void hold_wide(struct assumed *assumed, enum pitch_assumption_id id, double size)
{
    if (assumed->count < ASSUMED_MAX)
        assumed->held[assumed->count++] = (struct pitch_assumption_held){id, size};
}

static void hold(struct assumed *assumed, enum pitch_assumption_id id)
{
    hold_wide(assumed, id, pitch_assumption_get(id)->size);
}

static void hold_either(struct assumed *assumed, bool entered, enum pitch_assumption_id if_entered,
                        enum pitch_assumption_id else_id)
{
    hold(assumed, entered ? if_entered : else_id);
}

/* The cents decide depth and ends only where they tell both. */
static bool is_calibrated(const struct intonation_calibration *fit)
{
    return fit->press_depth_mm.pinned && fit->clamped_ends.pinned;
}

static void hold_conditions(const struct record *record, struct assumed *assumed)
{
    if (assumed->by_tuner) {
        hold(assumed, PITCH_ASSUMPTION_BY_TUNER);
    } else {
        hold_either(assumed, record_entered_one(record, FIELD_PRESS_DEPTH).given,
                    PITCH_ASSUMPTION_DEPTH_ENTERED, PITCH_ASSUMPTION_DEPTH_ASSUMED);
        hold_either(assumed, record_entered_one(record, FIELD_CLAMPED_ENDS).given,
                    PITCH_ASSUMPTION_ENDS_ENTERED, PITCH_ASSUMPTION_ENDS_ASSUMED);
    }
    hold_either(assumed, record_entered_one(record, FIELD_PRESS_DISTANCE).given,
                PITCH_ASSUMPTION_DISTANCE_ENTERED, PITCH_ASSUMPTION_DISTANCE_ASSUMED);
    hold_either(assumed, record_entered_one(record, FIELD_FREE_LENGTH).given,
                PITCH_ASSUMPTION_FREE_ENTERED, PITCH_ASSUMPTION_FREE_ASSUMED);
}

/* A usual set's core is taken over from its table, and nobody has measured it. */
static bool is_core_of_set(const struct string_build *build)
{
    const double same_mm = 1e-4;
    struct string_set set = {.name = NULL};

    while (string_set_next(&set))
        for (int i = 0; i < set.strings; i++) {
            const struct string_build *usual = &set.string[i].build;

            if (usual->kind == build->kind && fabs(usual->gauge_mm - build->gauge_mm) < same_mm &&
                fabs(usual->core_mm - build->core_mm) < same_mm)
                return true;
        }
    return false;
}

static void hold_core(const struct string_build *build, struct assumed *assumed)
{
    switch (build->kind) {
    case BUILD_PLAIN:
        hold(assumed, PITCH_ASSUMPTION_CORE_PLAIN);
        return;
    case BUILD_NYLON:
        hold(assumed, PITCH_ASSUMPTION_CORE_NYLON);
        return;
    default:
        hold_either(assumed, !is_core_of_set(build), PITCH_ASSUMPTION_CORE_ENTERED,
                    PITCH_ASSUMPTION_CORE_OF_SET);
    }
}

/* A plain wire's mass goes with its gauge and is no assumption of its own. */
static void hold_built_mass(const struct string_build *build, struct assumed *assumed)
{
    if (build->kind == BUILD_FLAT_WOUND)
        hold(assumed, PITCH_ASSUMPTION_MASS_FLAT);
    else if (build->kind == BUILD_ROUND_WOUND)
        hold(assumed, PITCH_ASSUMPTION_MASS_ROUND);
    else if (build->kind != BUILD_PLAIN)
        hold_either(assumed, build->core_material == MATERIAL_FLUOROCARBON,
                    PITCH_ASSUMPTION_MASS_FLUOROCARBON, PITCH_ASSUMPTION_MASS_NYLON);
}

static void hold_mass(const struct string_facts *facts, struct assumed *assumed)
{
    switch (facts->mass.origin) {
    case MASS_WEIGHED:
        hold(assumed, PITCH_ASSUMPTION_MASS_WEIGHED);
        return;
    case MASS_LABEL:
        hold(assumed, PITCH_ASSUMPTION_MASS_LABEL);
        return;
    case MASS_ENTERED:
        hold(assumed, PITCH_ASSUMPTION_MASS_ENTERED);
        return;
    case MASS_BUILD:
        hold_built_mass(&facts->build, assumed);
        return;
    }
}

void derive_assumed(struct place place, const struct setup *setup, const struct move_choice *choice,
                    const struct string_facts *facts, const struct string_lines *lines, int string,
                    struct assumed *ret_assumed)
{
    const struct record *record = &place.record;
    struct assumed *assumed = ret_assumed;

    *assumed = (struct assumed){.count = 0};
    assumed->by_tuner = derive_calibration(place, setup, facts, lines, string,
                                           &assumed->calibration) == STATUS_OK &&
                        is_calibrated(&assumed->calibration);
    hold_conditions(record, assumed);
    hold_either(assumed,
                facts->build.modulus_mpa > 0 ||
                    record_entered_one(record, FIELD_CORE_MODULUS).given,
                PITCH_ASSUMPTION_MODULUS_ENTERED, PITCH_ASSUMPTION_MODULUS_STEEL);
    hold_core(&facts->build, assumed);
    hold_mass(facts, assumed);
    hold_either(assumed, setup->setback[string].mm.given,
                setup->setback[string].is_expected ? PITCH_ASSUMPTION_CONTACT_MOVED
                                                   : PITCH_ASSUMPTION_CONTACT_ENTERED,
                PITCH_ASSUMPTION_CONTACT_ASSUMED);
    /* What is not moved stays at what its gauge read. */
    if (choice->saddle[string])
        hold_wide(assumed, PITCH_ASSUMPTION_ACTION_REACHED, setup->action_tolerance_mm);
    if (choice->slot[string])
        hold_wide(assumed, PITCH_ASSUMPTION_GAP_REACHED, setup->gap_tolerance_mm);
}
