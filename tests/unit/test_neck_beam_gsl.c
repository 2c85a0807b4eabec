/* SPDX-License-Identifier: MIT */
/*
 * A second opinion on the neck as a beam. None of the model's arithmetic is used: the
 * section is integrated in thin layers from its outline (gsl_integration), and the neck is bent by
 * stepping the differential equation w'' = M/EI from the heel to the nut (gsl_odeiv2).
 */
#include "model/neck/neck_beam.h"

#include <math.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_odeiv2.h>

#include "near.h"
#include "seeded.h"
#include "worked_neck.h"

/* The layers of a section at one station: E times width, times y to some power. */
struct layers {
    const struct neck_make *make;
    enum neck_slot slot;
    double width_mm;
    double depth_mm;
    double about_mm;
    int power;
};

static double shaft_layer(const struct layers *l, double y)
{
    const struct neck_make *m = l->make;
    const double share = 1 - (y / l->depth_mm) * (y / l->depth_mm);
    double stiff = m->shaft_modulus_mpa * l->width_mm * sqrt(fmax(0, share));
    const double deep = -y;
    if (deep < m->slot_depth_mm)
        stiff += m->slot_width_mm *
                 ((l->slot == NECK_SLOT_FOUND ? 0 : m->spline_modulus_mpa) - m->shaft_modulus_mpa);
    if (l->slot == NECK_SLOT_RECUT && deep < m->recut_depth_mm)
        stiff -= m->recut_width_mm *
                 (deep < m->slot_depth_mm ? m->spline_modulus_mpa : m->shaft_modulus_mpa);
    return stiff;
}

static double layer(double y, void *params)
{
    const struct layers *l = params;
    const double stiff = y > 0 ? l->make->board_modulus_mpa * l->width_mm : shaft_layer(l, y);
    return stiff * pow(y - l->about_mm, l->power);
}

/* From the bottom of the shaft to the top of the board, piece by piece. */
static double sum_layers(struct layers *l, int power, double about_mm)
{
    double edges[6] = {-l->depth_mm, -l->make->slot_depth_mm, -l->make->recut_depth_mm, 0,
                       l->make->board_thickness_mm};
    double total = 0;
    gsl_integration_cquad_workspace *space = gsl_integration_cquad_workspace_alloc(200);
    gsl_function f = {layer, l};
    l->power = power;
    l->about_mm = about_mm;
    if (edges[1] > edges[2]) {
        const double swapped = edges[1];
        edges[1] = edges[2];
        edges[2] = swapped;
    }
    for (int i = 0; i < 4; i++) {
        double piece = 0;
        assert_int_equal(
            gsl_integration_cquad(&f, edges[i], edges[i + 1], 0, 1e-11, space, &piece, NULL, NULL),
            GSL_SUCCESS);
        total += piece;
    }
    gsl_integration_cquad_workspace_free(space);
    return total;
}

static struct section_stiffness judge_section(const struct neck_beam *b, enum neck_slot slot,
                                              double x)
{
    struct layers l = {
        .make = &b->make,
        .slot = slot,
        .width_mm = b->width_nut_mm + (b->width_join_mm - b->width_nut_mm) * x / b->high_end_mm,
        .depth_mm = b->shaft_first_mm + (b->shaft_heel_mm - b->shaft_first_mm) *
                                            (x - b->first_fret_mm) /
                                            (b->heel_mm - b->first_fret_mm),
    };
    const double axis = sum_layers(&l, 1, 0) / sum_layers(&l, 0, 0);
    return (struct section_stiffness){axis, sum_layers(&l, 2, axis)};
}

struct judge {
    const struct neck_beam *beam;
    enum neck_slot slot;
};

/* Crowns over the chord at share r of a string of length L, straight from the readings'
 * definition, for a neck without fall-away in front of the heel. */
static double judge_crown(const struct neck_beam *b, double length_mm, double r)
{
    const double k = length_mm / b->scale_mm;
    const double heel = b->heel_mm * k, low = b->low_end_mm * k, high = b->high_end_mm * k;
    const double x = r * length_mm;
    const double w = x < heel ? b->curvature_per_mm * pow(heel - x, 2) / 2 : 0;
    const double wa = low < heel ? b->curvature_per_mm * pow(heel - low, 2) / 2 : 0;
    const double wb = high < heel ? b->curvature_per_mm * pow(heel - high, 2) / 2 : 0;
    return w - (wa * (high - x) + wb * (x - low)) / (high - low);
}

static double judge_lever(const struct neck_beam *b, double axis_mm, double x)
{
    double mean = 0;
    for (int i = 0; i < b->string_count; i++) {
        const struct neck_beam_string *s = &b->strings[i];
        const double r = x / b->scale_mm;
        const double along = r * s->scale_mm / s->saddle_x_mm;
        mean += s->nut_height_mm * (1 - along) + s->saddle_height_mm * along -
                judge_crown(b, s->scale_mm, r);
    }
    return b->make.board_thickness_mm + b->crown_height_mm + mean / b->string_count - axis_mm;
}

/* y = {w, dw/ds}, s the way from the heel toward the nut. */
static int bend_equation(double s, const double y[], double dyds[], void *params)
{
    const struct judge *j = params;
    const double x = j->beam->heel_mm - s;
    const struct section_stiffness section = judge_section(j->beam, j->slot, x);
    dyds[0] = y[1];
    dyds[1] = j->beam->tension_total_n * judge_lever(j->beam, section.axis_mm, x) /
              section.stiffness_nmm2;
    return GSL_SUCCESS;
}

static double judge_bend(const struct neck_beam *b, enum neck_slot slot, double x)
{
    struct judge j = {b, slot};
    double s = 0;
    double y[2] = {0, 0};
    if (x >= b->heel_mm)
        return 0;
    gsl_odeiv2_system system = {bend_equation, NULL, 2, &j};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 20, 1e-13, 1e-11);
    assert_int_equal(gsl_odeiv2_driver_apply(driver, &s, b->heel_mm - x, y), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
    return y[0];
}

static double judge_relief(const struct neck_beam *b, enum neck_slot slot)
{
    const double low = judge_bend(b, slot, b->low_end_mm);
    const double high = judge_bend(b, slot, b->high_end_mm);
    const double share = (b->relief_mm - b->low_end_mm) / (b->high_end_mm - b->low_end_mm);
    return low * (1 - share) + high * share - judge_bend(b, slot, b->relief_mm);
}

static const enum neck_slot slots[] = {NECK_SLOT_FOUND, NECK_SLOT_FILLED, NECK_SLOT_RECUT};

static void test_worked_neck(void **state)
{
    struct worked_neck w;
    (void)state;
    worked_neck_fill(&w);
    for (int i = 0; i < 3; i++) {
        double relief_mm = 0;
        struct section_stiffness section;
        const struct section_stiffness judged = judge_section(&w.beam, slots[i], 150);
        assert_int_equal(neck_beam_find_section(&w.beam, slots[i], 150, &section), STATUS_OK);
        assert_near_relative(section.axis_mm, judged.axis_mm, 1e-9);
        assert_near_relative(section.stiffness_nmm2, judged.stiffness_nmm2, 1e-9);
        assert_int_equal(neck_beam_find_relief(&w.beam, slots[i], &relief_mm), STATUS_OK);
        assert_near_relative(relief_mm, judge_relief(&w.beam, slots[i]), 1e-8);
    }
}

/* Necks from a ukulele's to a bass's, fanned scales, steep tapers, back-bow. */
static void random_neck(struct seeded *seed, struct worked_neck *w)
{
    worked_neck_fill(w);
    struct neck_beam *b = &w->beam;
    const double scale = seeded_between(seed, 350, 900);
    const double ratio = scale / b->scale_mm;
    b->scale_mm = scale;
    b->first_fret_mm *= ratio;
    b->low_end_mm = seeded_between(seed, 0, 1) < 0.5 ? 0 : b->first_fret_mm;
    b->high_end_mm *= ratio;
    b->heel_mm *= ratio;
    b->relief_mm *= ratio;
    b->width_nut_mm = seeded_between(seed, 30, 50);
    b->width_join_mm = b->width_nut_mm + seeded_between(seed, 0, 25);
    b->shaft_first_mm = seeded_between(seed, 12.5, 18);
    b->shaft_heel_mm = b->shaft_first_mm + seeded_between(seed, 0.5, 12);
    b->make.recut_depth_mm = seeded_between(seed, 3, 12);
    b->make.board_thickness_mm = seeded_between(seed, 4, 8);
    b->curvature_per_mm = seeded_between(seed, -2e-5, 6e-5);
    for (int i = 0; i < WORKED_STRINGS; i++) {
        w->strings[i].scale_mm = scale * seeded_between(seed, 0.95, 1.05);
        w->strings[i].saddle_x_mm = w->strings[i].scale_mm + seeded_between(seed, 0, 5);
    }
}

static void test_any_neck(void **state)
{
    struct seeded seed = seeded_start("neck beam against GSL");
    (void)state;
    for (int round = 0; round < 12; round++) {
        struct worked_neck w;
        double relief_mm = 0;
        random_neck(&seed, &w);
        const enum neck_slot slot = slots[round % 3];
        assert_int_equal(neck_beam_find_relief(&w.beam, slot, &relief_mm), STATUS_OK);
        assert_near_relative(relief_mm, judge_relief(&w.beam, slot), 1e-8);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked_neck),
        cmocka_unit_test(test_any_neck),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
