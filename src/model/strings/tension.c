/* SPDX-License-Identifier: MIT */
#include "model/strings/tension.h"

#include <math.h>
#include <stddef.h>

#include "model/common/check.h"

/* The diameters over which Shigley gives the fit for A228 wire, mm. */
#define WIRE_FIT_MIN_MM 0.10
#define WIRE_FIT_MAX_MM 6.5

#define MM2_TO_M2  1e-6
#define MM2_PER_M2 1e6
#define MM_TO_M    1e-3
#define G_TO_KG    1e-3
#define MPA_TO_PA  1e6

/* A number that may be missing: STATUS_ABSENT for 0, STATUS_DOMAIN for nonsense. */
static enum status check_given(double value)
{
    if (value == 0)
        return STATUS_ABSENT;
    return check_is_positive(value) ? STATUS_OK : STATUS_DOMAIN;
}

/* Hands out a result that has to be positive and finite. */
static enum status give_positive(double value, double *ret_value)
{
    if (!check_is_positive(value))
        return STATUS_DOMAIN;
    *ret_value = value;
    return STATUS_OK;
}

static bool is_wound(enum string_build_kind kind)
{
    return kind == BUILD_ROUND_WOUND || kind == BUILD_FLAT_WOUND || kind == BUILD_NYLON_WOUND;
}

static enum string_material core_material(const struct string_build *build)
{
    if (build->core_material != MATERIAL_NONE)
        return build->core_material;
    return build->kind == BUILD_NYLON || build->kind == BUILD_NYLON_WOUND ? MATERIAL_NYLON
                                                                          : MATERIAL_STEEL;
}

static double circle_area(double diameter)
{
    return M_PI * diameter * diameter / 4;
}

static bool has_hex_core(const struct string_build *build)
{
    return build->hex_core && (build->kind == BUILD_ROUND_WOUND || build->kind == BUILD_FLAT_WOUND);
}

static enum status core_diameter(const struct string_build *build, double *ret_mm)
{
    if ((int)build->kind < 0 || build->kind >= BUILD_COUNT_)
        return STATUS_DOMAIN;

    double diameter = is_wound(build->kind) ? build->core_mm : build->gauge_mm;
    enum status status = check_given(diameter);

    if (status != STATUS_OK)
        return status;
    /* The gauge matters to the core only as far as the two contradict each other. */
    if (is_wound(build->kind) && build->gauge_mm != 0 && !(diameter < build->gauge_mm))
        return STATUS_DOMAIN;
    *ret_mm = diameter;
    return STATUS_OK;
}

enum status tension_find_core(const struct string_build *build, struct string_core *ret_core)
{
    double d;
    enum status status = core_diameter(build, &d);

    if (status != STATUS_OK)
        return status;

    struct string_core core = {d, circle_area(d), M_PI * d * d * d * d / 64};

    if (has_hex_core(build)) {
        core.area_mm2 = sqrt(3.0) / 2 * d * d;
        core.second_moment_mm4 = 5 * sqrt(3.0) / 144 * d * d * d * d;
    }
    if (!check_is_positive(core.second_moment_mm4))
        return STATUS_DOMAIN;
    *ret_core = core;
    return STATUS_OK;
}

enum status tension_find_modulus(const struct string_build *build, double *ret_modulus_mpa)
{
    const struct string_material_facts *facts = string_material_facts(core_material(build));
    double modulus = build->modulus_mpa;

    if (modulus == 0 && facts == NULL)
        return STATUS_DOMAIN;
    if (modulus == 0 && facts->music_wire)
        modulus = build->steel_modulus_mpa;
    if (modulus == 0)
        modulus = facts->modulus_mpa;

    enum status status = check_given(modulus);

    if (status == STATUS_OK)
        *ret_modulus_mpa = modulus;
    return status;
}

enum status tension_find_rough_core(const struct string_build *build, struct string_core *ret_core,
                                    double *ret_modulus_mpa)
{
    const struct string_material_facts *facts = string_material_facts(core_material(build));
    struct string_build rough = *build;

    if (facts == NULL || !(facts->settled_modulus_mpa > 0))
        return STATUS_ABSENT;
    if (rough.kind == BUILD_NYLON_WOUND && rough.core_mm == 0)
        rough.core_mm = 0.8 * rough.gauge_mm;

    const enum status status = tension_find_core(&rough, ret_core);

    if (status == STATUS_OK)
        *ret_modulus_mpa = facts->settled_modulus_mpa;
    return status;
}

/* Metal laid round a core, as the area of solid that weighs the same per length, mm2. */
static double wrap_area(const struct string_build *build)
{
    double core = build->core_mm;

    if (build->kind == BUILD_FLAT_WOUND)
        return FLAT_WRAP_FILL * (circle_area(build->gauge_mm) - circle_area(core));

    double wire = (build->gauge_mm - core) / 2;
    double turn = hypot(M_PI * (core + wire), wire);

    return circle_area(wire) * turn / wire;
}

enum status tension_mass_from_build(const struct string_build *build, double *ret_kg_per_m)
{
    struct string_core core;
    enum status status = tension_find_core(build, &core);

    if (status != STATUS_OK)
        return status;

    const struct string_material_facts *inner = string_material_facts(core_material(build));

    if (inner == NULL)
        return STATUS_DOMAIN;

    double per_mm2 = inner->density_kg_per_m3 * core.area_mm2;

    if (is_wound(build->kind)) {
        const struct string_material_facts *wrap = string_material_facts(build->wrap_material);

        if (build->gauge_mm == 0 || build->wrap_material == MATERIAL_NONE)
            return STATUS_ABSENT;
        if (wrap == NULL)
            return STATUS_DOMAIN;
        per_mm2 += wrap->density_kg_per_m3 * wrap_area(build);
    }
    return give_positive(per_mm2 * MM2_TO_M2, ret_kg_per_m);
}

enum status tension_find_stretch(const struct string_build *build, double length_mm, double hz,
                                 double *ret_stretch)
{
    const struct string_material_facts *facts = string_material_facts(core_material(build));

    if (is_wound(build->kind) || (facts && facts->settled_modulus_mpa == 0)) {
        *ret_stretch = 1;
        return STATUS_OK;
    }
    if (!facts || length_mm == 0 || hz == 0)
        return STATUS_ABSENT;
    if (!check_is_positive(length_mm) || !check_is_positive(hz))
        return STATUS_DOMAIN;

    const double wave_speed = 2 * length_mm * MM_TO_M * hz;
    const double load = facts->density_kg_per_m3 * wave_speed * wave_speed /
                        (facts->settled_modulus_mpa * MPA_TO_PA);

    return give_positive((1 + sqrt(1 + 4 * load)) / 2, ret_stretch);
}

static enum status weighed_mass(const struct mass_sources *sources, double *ret_kg_per_m)
{
    enum status status = check_given(sources->weigh_mass_g);

    if (status == STATUS_OK)
        status = check_given(sources->weigh_length_mm);
    if (status != STATUS_OK)
        return status;
    return give_positive(sources->weigh_mass_g * G_TO_KG / (sources->weigh_length_mm * MM_TO_M),
                         ret_kg_per_m);
}

static enum status label_mass(const struct mass_sources *sources, double *ret_kg_per_m)
{
    const double parts[] = {sources->label_tension_n, sources->label_scale_mm, sources->label_hz};

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        enum status status = check_given(parts[i]);

        if (status != STATUS_OK)
            return status;
    }

    double wave_speed = 2 * sources->label_scale_mm * MM_TO_M * sources->label_hz;

    return give_positive(sources->label_tension_n / (wave_speed * wave_speed), ret_kg_per_m);
}

static enum status entered_mass(const struct mass_sources *sources, double *ret_kg_per_m)
{
    enum status status = check_given(sources->entered_kg_per_m);

    if (status == STATUS_OK)
        *ret_kg_per_m = sources->entered_kg_per_m;
    return status;
}

static enum status build_mass(const struct mass_sources *sources, double *ret_kg_per_m)
{
    if (sources->build == NULL)
        return STATUS_ABSENT;
    return tension_mass_from_build(sources->build, ret_kg_per_m);
}

/* How far the mass of a source is from that at pitch. */
static enum status find_slack(const struct mass_sources *sources, enum mass_origin origin,
                              double *ret_stretch)
{
    *ret_stretch = 1;
    if (origin == MASS_LABEL || origin == MASS_ENTERED || !sources->build)
        return STATUS_OK;
    return tension_find_stretch(sources->build, sources->length_mm, sources->hz, ret_stretch);
}

enum status tension_find_mass(const struct mass_sources *sources, struct unit_mass *ret_mass)
{
    /* Indexed by enum mass_origin, most trusted first. */
    static enum status (*const finders[])(const struct mass_sources *, double *) = {
        weighed_mass, label_mass, entered_mass, build_mass};

    for (size_t i = 0; i < sizeof finders / sizeof finders[0]; i++) {
        const enum mass_origin origin = (enum mass_origin)i;
        double mass, stretch;
        enum status status = finders[i](sources, &mass);

        if (status == STATUS_OK)
            status = find_slack(sources, origin, &stretch);
        if (status == STATUS_OK)
            *ret_mass = (struct unit_mass){mass / stretch, origin, stretch};
        if (status != STATUS_ABSENT)
            return status;
    }
    return STATUS_ABSENT;
}

enum status tension_from_pitch(double mass_kg_per_m, double length_mm, double hz,
                               double *ret_tension_n)
{
    if (!(mass_kg_per_m > 0) || !(length_mm > 0) || !(hz > 0))
        return STATUS_DOMAIN;

    double wave_speed_mm = 2 * length_mm * hz;

    return give_positive(mass_kg_per_m * (wave_speed_mm * wave_speed_mm) / MM2_PER_M2,
                         ret_tension_n);
}

enum status tension_wire_strength(double diameter_mm, double *ret_strength_mpa)
{
    if (isnan(diameter_mm))
        return STATUS_DOMAIN;
    if (diameter_mm < WIRE_FIT_MIN_MM || diameter_mm > WIRE_FIT_MAX_MM)
        return STATUS_RANGE;
    *ret_strength_mpa = 2211.0 / pow(diameter_mm, 0.145);
    return STATUS_OK;
}

enum status tension_stress_share(const struct string_build *build, double tension_n,
                                 double *ret_share)
{
    const struct string_material_facts *facts = string_material_facts(core_material(build));
    struct string_core core;
    double strength;

    if (facts == NULL || !(tension_n > 0))
        return STATUS_DOMAIN;
    if (!facts->music_wire)
        return STATUS_ABSENT;

    enum status status = tension_find_core(build, &core);

    if (status == STATUS_OK)
        status = tension_wire_strength(core.diameter_mm, &strength);
    if (status != STATUS_OK)
        return status;
    return give_positive(tension_n / core.area_mm2 / strength, ret_share);
}
