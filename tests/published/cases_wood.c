/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>

#include "model/reading/field.h"
#include "model/neck/moisture.h"
#include "model/neck/neck_beam.h"
#include "model/neck/wood.h"
#include "near.h"
#include "worked_neck.h"

#define INCH_MM    25.4
#define POUND_N    4.4482216152605
#define KSI_IN_MPA 6.894757293168361

static enum status run_emc(struct published_case *c, struct published_answers *answers)
{
    const double fahrenheit = published_number_or(c, "temperature", "F", (double)NAN);
    const double celsius =
        isnan(fahrenheit) ? published_number(c, "celsius", "C") : (fahrenheit - 32) / 1.8;
    double emc_pct = 0;
    enum status status = moisture_find_emc(celsius, published_number(c, "humidity", "%"), &emc_pct);
    if (status == STATUS_OK)
        published_answer(answers, "emc", emc_pct, "%");
    return status;
}

/* Two rectangles one on the other, measured from the joint. Stresses M y E/EI. */
static enum status run_composite_beam(struct published_case *c, struct published_answers *answers)
{
    const double upper = published_number(c, "upper-modulus", "ksi");
    const double lower = published_number(c, "lower-modulus", "ksi");
    const double top = published_number(c, "upper-depth", "in");
    const double bottom = published_number(c, "lower-depth", "in");
    const double width = published_number(c, "width", "in");
    const double moment = published_number(c, "moment", "kip-in");
    const struct section_part parts[] = {section_rectangle(upper, width, 0, top),
                                         section_rectangle(lower, width, -bottom, 0)};
    struct section_stiffness s;
    enum status status = section_compose(parts, 2, &s);
    if (status)
        return status;
    const double bow = 1000 * moment / s.stiffness_nmm2;
    published_answer(answers, "axis-from-top", top - s.axis_mm, "in");
    published_answer(answers, "axis-from-bottom", s.axis_mm + bottom, "in");
    published_answer(answers, "transformed-inertia", s.stiffness_nmm2 / upper, "in^4");
    published_answer(answers, "upper-stress-at-top", bow * upper * (top - s.axis_mm), "psi");
    published_answer(answers, "upper-stress-at-joint", bow * upper * fabs(s.axis_mm), "psi");
    published_answer(answers, "lower-stress-at-joint", bow * lower * fabs(s.axis_mm), "psi");
    published_answer(answers, "lower-stress-at-bottom", bow * lower * (s.axis_mm + bottom), "psi");
    return STATUS_OK;
}

/* A neck of one section from the nut to the heel, the chord across the whole of it, and
 * strings that start at the neutral axis and rise by `slope`. */
static struct section_stiffness make_even_neck(struct worked_neck *w, double slope)
{
    struct section_stiffness s = {0};
    worked_neck_fill(w);
    w->beam.width_join_mm = w->beam.width_nut_mm;
    w->beam.shaft_heel_mm = w->beam.shaft_first_mm;
    w->beam.curvature_per_mm = 0;
    w->beam.low_end_mm = 0;
    w->beam.high_end_mm = w->beam.heel_mm;
    w->beam.relief_mm = w->beam.heel_mm / 2;
    assert_int_equal(neck_beam_find_section(&w->beam, NECK_SLOT_FOUND, 0, &s), STATUS_OK);
    for (int i = 0; i < WORKED_STRINGS; i++) {
        const double at_axis =
            s.axis_mm - w->beam.make.board_thickness_mm - w->beam.crown_height_mm;
        w->strings[i].nut_height_mm = at_axis;
        w->strings[i].saddle_height_mm = at_axis + slope * w->strings[i].saddle_x_mm;
    }
    return s;
}

/* Deflections as the coefficient of W L^3/(E I), or M L^2/(E I) for end couples. */
static enum status run_cantilever(struct published_case *c, struct published_answers *answers)
{
    struct worked_neck w;
    const double slope = published_number(c, "slope", "");
    const struct section_stiffness s = make_even_neck(&w, slope);
    double bend_mm = 0;
    enum status status = neck_beam_find_bend(&w.beam, NECK_SLOT_FOUND, 0, &bend_mm);
    if (status)
        return status;
    const double load_n = w.beam.tension_total_n * slope;
    published_answer(answers, "coefficient",
                     bend_mm * s.stiffness_nmm2 / (load_n * pow(w.beam.heel_mm, 3)), "");
    return STATUS_OK;
}

static enum status run_end_couples(struct published_case *c, struct published_answers *answers)
{
    struct worked_neck w;
    const struct section_stiffness s = make_even_neck(&w, 0);
    const double lever_mm = published_number(c, "lever", "mm");
    double relief_mm = 0;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        w.strings[i].nut_height_mm += lever_mm;
        w.strings[i].saddle_height_mm += lever_mm;
    }
    enum status status = neck_beam_find_relief(&w.beam, NECK_SLOT_FOUND, &relief_mm);
    if (status)
        return status;
    const double moment_nmm = w.beam.tension_total_n * lever_mm;
    published_answer(answers, "coefficient",
                     relief_mm * s.stiffness_nmm2 / (moment_nmm * pow(w.beam.heel_mm, 2)), "");
    return STATUS_OK;
}

/* Crowns curved by kappa under straight strings along the axis: the lever is
 * kappa x (L - x)/2, the moment of a uniform load kappa T a length. */
static enum status run_uniform_load(struct published_case *c, struct published_answers *answers)
{
    struct worked_neck w;
    const struct section_stiffness s = make_even_neck(&w, 0);
    double relief_mm = 0;
    w.beam.curvature_per_mm = published_number(c, "curvature", "1/mm");
    enum status status = neck_beam_find_relief(&w.beam, NECK_SLOT_FOUND, &relief_mm);
    if (status)
        return status;
    const double load_n = w.beam.tension_total_n * w.beam.curvature_per_mm * w.beam.heel_mm;
    published_answer(answers, "coefficient",
                     relief_mm * s.stiffness_nmm2 / (load_n * pow(w.beam.heel_mm, 3)), "");
    return STATUS_OK;
}

static enum status run_movement(struct published_case *c, struct published_answers *answers)
{
    double movement_mm = 0;
    enum status status = moisture_find_movement(
        published_number(c, "width", "mm"), published_number(c, "coefficient", ""),
        published_number(c, "from", "%"), published_number(c, "to", "%"), &movement_mm);
    if (status == STATUS_OK)
        published_answer(answers, "movement", movement_mm, "mm");
    return status;
}

static enum status run_tenon(struct published_case *c, struct published_answers *answers)
{
    const struct neck_tenon tenon = {
        .edge_mm = 1,
        .thickness_mm = 1,
        .shear_strength_mpa = 0.5,
        .bolt_diameter_mm = published_number(c, "diameter", "in") * INCH_MM,
        .bolt_torque_nm = published_number(c, "torque", "lbf-in") * POUND_N * INCH_MM / 1000,
    };
    double safety = 0;
    /* With a strength of 1 N the safety is one over the preload. */
    enum status status = neck_tenon_find_safety(&tenon, &safety);
    if (status == STATUS_OK)
        published_answer(answers, "preload", 1 / safety / POUND_N, "lbf");
    return status;
}

/* A pitch as it is typed into a profile: read, and not taken for unusual. */
static enum status run_thread(struct published_case *c, struct published_answers *answers)
{
    const struct field *field = field_get(FIELD_THREAD);
    struct field_value value;
    struct field_fault fault;
    char text[64];
    snprintf(text, sizeof text, "%s %s", published_text(c, "pitch"), published_text(c, "unit"));
    enum status status = field_read(field, text, field_file_unit(field), &value, &fault);
    if (status)
        return status;
    published_answer(answers, "pitch", value.value, "mm");
    published_answer(answers, "usual", value.state == READING_GOOD, "");
    return STATUS_OK;
}

static enum status run_coefficient(struct published_case *c, struct published_answers *answers)
{
    double coefficient = 0;
    enum status status =
        wood_coefficient_from_shrinkage(published_number(c, "shrinkage", "%"), &coefficient);
    if (status == STATUS_OK)
        published_answer(answers, "coefficient", coefficient, "");
    return status;
}

static void answer_known(struct published_answers *answers, const char *name,
                         const struct maybe *number, const char *unit)
{
    if (number->given)
        published_answer(answers, name, number->value, unit);
}

static enum status run_wood(struct published_case *c, struct published_answers *answers)
{
    static const char *const to_12_pct[] = {"radial-to-12", "tangential-to-12"};
    const struct wood *wood = NULL;
    enum status status = wood_find(published_text(c, "wood"), &wood);
    if (status)
        return status;
    answer_known(answers, "modulus", &wood->modulus_mpa, "MPa");
    if (wood->modulus_mpa.given)
        published_answer(answers, "modulus-in-ksi", wood->modulus_mpa.value / KSI_IN_MPA, "ksi");
    answer_known(answers, "radial-shrinkage", &wood->shrinkage_pct[WOOD_RADIAL], "%");
    answer_known(answers, "tangential-shrinkage", &wood->shrinkage_pct[WOOD_TANGENTIAL], "%");
    /* Shrinkage goes straight with the moisture below 30 %: Wood Handbook, eq. (4-7). */
    for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++) {
        if (wood->shrinkage_pct[grain].given)
            published_answer(answers, to_12_pct[grain], wood->shrinkage_pct[grain].value * 18 / 30,
                             "%");
    }
    answer_known(answers, "radial-coefficient", &wood->coefficient[WOOD_RADIAL], "");
    answer_known(answers, "tangential-coefficient", &wood->coefficient[WOOD_TANGENTIAL], "");
    return STATUS_OK;
}

const struct published_function published_wood[] = {
    {"emc", run_emc},
    {"composite-beam", run_composite_beam},
    {"cantilever-end-load", run_cantilever},
    {"span-end-couples", run_end_couples},
    {"span-uniform-load", run_uniform_load},
    {"movement", run_movement},
    {"bolt-preload", run_tenon},
    {"thread", run_thread},
    {"wood-coefficient", run_coefficient},
    {"wood", run_wood},
    {NULL, NULL},
};
