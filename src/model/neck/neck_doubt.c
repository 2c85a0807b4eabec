/* SPDX-License-Identifier: MIT */
#include "model/neck/neck_doubt.h"

#include <stddef.h>

#include "model/common/assumption.h"

enum { ASSUMED_MAX = 16 };

/* A beam whose numbers are tried one by one. */
struct trial {
    struct neck_beam beam;
    enum neck_slot slot;
};

static bool solve_first(const void *of, double *ret_value)
{
    const struct trial *trial = of;
    struct section_stiffness section;

    if (neck_beam_find_section(&trial->beam, trial->slot, trial->beam.first_fret_mm, &section) !=
        STATUS_OK)
        return false;
    *ret_value = section.stiffness_nmm2;
    return true;
}

static bool solve_heel(const void *of, double *ret_value)
{
    const struct trial *trial = of;
    struct section_stiffness section;

    if (neck_beam_find_section(&trial->beam, trial->slot, trial->beam.heel_mm, &section) !=
        STATUS_OK)
        return false;
    *ret_value = section.stiffness_nmm2;
    return true;
}

static bool solve_relief(const void *of, double *ret_value)
{
    const struct trial *trial = of;

    return neck_beam_find_relief_about(&trial->beam, trial->slot, ret_value) == STATUS_OK;
}

static enum assumption_id modulus_by(bool entered)
{
    return entered ? ASSUME_MODULUS_ENTERED : ASSUME_MODULUS;
}

/* What the section rests on. A slot of no size is no slot, and not in doubt. */
static int list_section(struct trial *trial, const struct neck_doubt *doubt, struct assumed *list)
{
    struct neck_beam *beam = &trial->beam;
    struct neck_make *make = &beam->make;
    double *const sizes[] = {&beam->width_nut_mm,  &beam->width_join_mm,      &beam->shaft_first_mm,
                             &beam->shaft_heel_mm, &make->board_thickness_mm, &make->slot_width_mm,
                             &make->slot_depth_mm};
    int n = 0;

    list[n++] = assumption_of(&make->board_modulus_mpa, modulus_by(doubt->board_modulus_entered));
    list[n++] = assumption_of(&make->shaft_modulus_mpa, modulus_by(doubt->shaft_modulus_entered));
    list[n++] = assumption_of(&make->fullness, ASSUME_FULLNESS);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        if (*sizes[i] > 0)
            list[n++] = assumption_of(sizes[i], ASSUME_CALLIPER);
    if (trial->slot != NECK_SLOT_FOUND)
        list[n++] = assumption_of(&make->spline_modulus_mpa, ASSUME_MODULUS);
    return n;
}

/* What else the bend rests on. */
static int list_bend(struct trial *trial, const struct neck_doubt *doubt, struct assumed *list)
{
    int n = 0;

    list[n++] = assumption_of(&trial->beam.crown_height_mm, ASSUME_CALLIPER);
    list[n++] = (struct assumed){.at = &trial->beam.heel_mm, .u = doubt->heel_u_mm};
    list[n++] = (struct assumed){
        .at = &trial->beam.tension_total_n, .u = doubt->pull_share_u, .is_share = true};
    return n;
}

struct neck_beam_u neck_doubt_find(const struct neck_beam *beam, enum neck_slot slot,
                                   const struct neck_doubt *doubt)
{
    struct trial trial = {.beam = *beam, .slot = slot};
    struct assumed list[ASSUMED_MAX];
    const int section = list_section(&trial, doubt, list);
    const int all = section + list_bend(&trial, doubt, list + section);

    return (struct neck_beam_u){
        .first_nmm2 = spread_expand(list, section, solve_first, &trial),
        .heel_nmm2 = spread_expand(list, section, solve_heel, &trial),
        .relief_mm = spread_expand(list, all, solve_relief, &trial),
    };
}
