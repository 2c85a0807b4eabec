/* SPDX-License-Identifier: MIT */
/*
 * A second opinion on the intonation model. The formulas are written out here again, in
 * the plainest way, and GSL solves what the model solves: roots by
 * bracketing, least squares by a simplex, straight-line fits by QR.
 */
#include "near.h"
#include "seeded.h"
#include "worked_strings.h"

#include <math.h>
#include <stddef.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multifit.h>
#include <gsl/gsl_multimin.h>
#include <gsl/gsl_roots.h>

#include "model/pitch/intonation.h"
#include "model/pitch/intonation_calibrate.h"
#include "model/pitch/intonation_reading.h"

static double stiffness(const struct intonation_setup *in, double tension, double length)
{
    double e = in->conditions.clamped_ends;
    double b = sqrt(in->modulus_mpa * in->core.second_moment_mm4 / tension) / length;

    return 1 + e * b + (e * e + M_PI * M_PI / 2) * b * b;
}

/* Cents of fret n, straight down the page. */
static double plain_cents(const struct intonation_setup *in, double s, double v, int n)
{
    double ls = in->scale_mm + s, x = in->fret_mm[n], z = in->crown_mm[n];
    double nut = in->nut_height_mm, saddle = in->saddle_height_mm;
    double after = in->conditions.free_length_mm;
    double q = fmin(in->conditions.press_distance_mm, (x - in->fret_mm[n - 1]) / 2);
    double l0 = hypot(ls - v, saddle - nut), l = hypot(ls - x, saddle - z);
    double dip = q * (saddle - z) / (ls - x) + in->conditions.press_depth_mm;
    double path = hypot(x - q - v, z - dip - nut) + hypot(q, dip) + l;
    double t0 = in->mass_kg_per_m * pow(2 * l0 / 1000 * in->hz, 2);
    double tn = t0 + in->modulus_mpa * in->core.area_mm2 * (path - l0) / (l0 + after);
    double mass = in->mass_kg_per_m * (l0 + after) / (l0 + after + path - l0);
    double open = sqrt(t0 / in->mass_kg_per_m) / (2 * l0) * stiffness(in, t0, l0);
    double fretted = sqrt(tn / mass) / (2 * l) * stiffness(in, tn, l);

    return 1200 * log2(fretted / open) - 100 * n;
}

static double cents_12_at(double s, void *params)
{
    return plain_cents(params, s, 0, 12);
}

static double squares_at(const gsl_vector *at, void *params)
{
    double sum = 0;

    for (int n = 1; n <= 12; n++) {
        double cents = plain_cents(params, gsl_vector_get(at, 0), gsl_vector_get(at, 1), n);

        sum += cents * cents;
    }
    return sum;
}

/* One of the worked strings with its conditions drawn at random. */
static void draw(struct seeded *seeded, struct worked_board *board,
                 struct intonation_setup *ret_setup)
{
    worked_at_target(seeded_whole(seeded, 0, WORKED_STRINGS - 1), board, ret_setup);
    /* Not right at the fret: a depth on no distance bends the string like a hook. */
    ret_setup->conditions.press_distance_mm = seeded_between(seeded, 2, 14);
    ret_setup->conditions.press_depth_mm = seeded_between(seeded, 0, 0.5);
    ret_setup->conditions.free_length_mm = seeded_between(seeded, 0, 200);
    ret_setup->conditions.clamped_ends = seeded_between(seeded, 0, 2);
    ret_setup->saddle_height_mm += seeded_between(seeded, -2, 3);
    ret_setup->modulus_mpa *= seeded_between(seeded, 0.1, 1.2);
}

static void test_cents_written_out(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("gsl cents");

    for (int k = 0; k < 200; k++) {
        struct worked_board board;
        struct intonation_setup setup;
        const struct intonation_ends ends = {seeded_between(&seeded, -2, 6),
                                             seeded_between(&seeded, -1, 1)};
        double cents[WORKED_FRETS + 1];

        draw(&seeded, &board, &setup);
        assert_int_equal(intonation_find_cents(&setup, &ends, cents), STATUS_OK);
        for (int n = 1; n <= WORKED_FRETS; n++)
            assert_near(cents[n], plain_cents(&setup, ends.setback_mm, ends.nut_advance_mm, n),
                        1e-8);
    }
}

static double root_by_brent(struct intonation_setup *setup)
{
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_function f = {cents_12_at, setup};
    int going = GSL_CONTINUE;

    gsl_root_fsolver_set(solver, &f, -50, 80);
    for (int k = 0; going == GSL_CONTINUE && k < 200; k++) {
        gsl_root_fsolver_iterate(solver);
        going = gsl_root_test_interval(gsl_root_fsolver_x_lower(solver),
                                       gsl_root_fsolver_x_upper(solver), 1e-11, 0);
    }

    double root = gsl_root_fsolver_root(solver);

    gsl_root_fsolver_free(solver);
    assert_int_equal(going, GSL_SUCCESS);
    return root;
}

static void test_setback_by_bracketing(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("gsl setback");

    for (int k = 0; k < 200; k++) {
        struct worked_board board;
        struct intonation_setup setup;
        double setback;

        draw(&seeded, &board, &setup);
        assert_int_equal(intonation_find_setback(&setup, 12, &setback), STATUS_OK);
        assert_near(setback, root_by_brent(&setup), 1e-8);
    }
}

/* The least point by a simplex that knows no slopes; the sum it found there. */
static double least_by_simplex(gsl_multimin_function *f, const double start[2], double step,
                               double ret_at[2])
{
    gsl_multimin_fminimizer *m =
        gsl_multimin_fminimizer_alloc(gsl_multimin_fminimizer_nmsimplex2, 2);
    gsl_vector *at = gsl_vector_alloc(2), *steps = gsl_vector_alloc(2);
    int going = GSL_CONTINUE;

    for (size_t i = 0; i < 2; i++) {
        gsl_vector_set(at, i, start[i]);
        gsl_vector_set(steps, i, step);
    }
    gsl_multimin_fminimizer_set(m, f, at, steps);
    for (int k = 0; going == GSL_CONTINUE && k < 2000; k++) {
        if (gsl_multimin_fminimizer_iterate(m) != GSL_SUCCESS)
            break;
        going = gsl_multimin_test_size(gsl_multimin_fminimizer_size(m), 1e-8);
    }

    double least = m->fval;

    for (size_t i = 0; i < 2; i++)
        ret_at[i] = gsl_vector_get(m->x, i);
    gsl_vector_free(at);
    gsl_vector_free(steps);
    gsl_multimin_fminimizer_free(m);
    return least;
}

static void test_best_by_simplex(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("gsl best");

    for (int k = 0; k < 60; k++) {
        struct worked_board board;
        struct intonation_setup setup;
        struct intonation_best best;
        gsl_multimin_function f = {squares_at, 2, &setup};
        const double start[2] = {1, 0};
        double at[2];

        draw(&seeded, &board, &setup);
        assert_int_equal(intonation_find_best(&setup, 1, 12, &best), STATUS_OK);

        double least = least_by_simplex(&f, start, 0.5, at);

        /* A sum so flat at its bottom places the simplex no better than this; that nothing
         * lower was found is the sharper check. */
        assert_near(best.ends.setback_mm, at[0], 3e-5);
        assert_near(best.ends.nut_advance_mm, at[1], 3e-5);
        assert_near(best.cents_rms, sqrt(least / 12), 1e-8);
        assert_true(best.cents_rms <= sqrt(least / 12) + 1e-10);
    }
}

static void test_fit_by_multifit(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("gsl fit");
    enum { READINGS = 7 };

    for (int k = 0; k < 100; k++) {
        double scale = seeded_between(&seeded, 300, 900), chisq;
        struct fret_cents readings[READINGS];
        struct intonation_fit fit;
        gsl_matrix *x = gsl_matrix_alloc(READINGS, 2), *cov = gsl_matrix_alloc(2, 2);
        gsl_vector *y = gsl_vector_alloc(READINGS), *c = gsl_vector_alloc(2);
        gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(READINGS, 2);

        for (size_t i = 0; i < READINGS; i++) {
            int n = 1 + (int)i * 3;

            readings[i] = (struct fret_cents){n, seeded_between(&seeded, -15, 15)};
            gsl_matrix_set(x, i, 0, 1731.23 / scale * (pow(2, n / 12.0) - 1));
            gsl_matrix_set(x, i, 1, 1731.23 / scale);
            gsl_vector_set(y, i, readings[i].cents);
        }
        gsl_multifit_linear(x, y, c, cov, &chisq, work);
        assert_int_equal(intonation_fit_readings(scale, readings, READINGS, &fit), STATUS_OK);
        assert_near(fit.change.setback_mm, gsl_vector_get(c, 0), 1e-9);
        assert_near(fit.change.nut_advance_mm, gsl_vector_get(c, 1), 1e-9);
        assert_near(fit.cents_left_rms, sqrt(chisq / READINGS), 1e-9);
        gsl_multifit_linear_free(work);
        gsl_matrix_free(x);
        gsl_matrix_free(cov);
        gsl_vector_free(y);
        gsl_vector_free(c);
    }
}

enum { CALIBRATE_READINGS = 24 };

static double misfit_at(const gsl_vector *at, void *params)
{
    const struct intonation_reading *readings = params;
    double sum = 0;

    for (int i = 0; i < CALIBRATE_READINGS; i++) {
        struct intonation_setup setup = *readings[i].setup;

        setup.conditions.press_depth_mm = gsl_vector_get(at, 0);
        setup.conditions.clamped_ends = gsl_vector_get(at, 1);

        double off = plain_cents(&setup, readings[i].ends.setback_mm,
                                 readings[i].ends.nut_advance_mm, readings[i].fret) -
                     readings[i].cents;

        sum += off * off;
    }
    return sum;
}

static void test_calibration_by_simplex(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("gsl calibration");

    for (int k = 0; k < 20; k++) {
        struct worked_board boards[WORKED_STRINGS];
        struct intonation_setup setups[WORKED_STRINGS];
        struct intonation_reading readings[CALIBRATE_READINGS];
        struct intonation_calibration got;
        gsl_multimin_function f = {misfit_at, 2, readings};
        double depth = seeded_between(&seeded, 0.2, 0.6), ends = seeded_between(&seeded, 0.6, 1.4);
        const double start[2] = {0.4, 1};
        double at[2];

        for (int i = 0; i < CALIBRATE_READINGS; i++) {
            int string = i % WORKED_STRINGS;
            struct intonation_setup told;

            worked_as_found(string, &boards[string], &setups[string]);
            told = setups[string];
            told.conditions.press_depth_mm = depth;
            told.conditions.clamped_ends = ends;
            readings[i] = (struct intonation_reading){&setups[string], {2, 0}, 2 + i / 6 * 5, 0};
            readings[i].cents =
                plain_cents(&told, 2, 0, readings[i].fret) + seeded_between(&seeded, -1, 1);
        }
        assert_int_equal(
            intonation_calibrate(readings, CALIBRATE_READINGS, 0, 1, 1 / sqrt(12), &got),
            STATUS_OK);

        double least = least_by_simplex(&f, start, 0.1, at);

        assert_near(got.press_depth_mm.value, at[0], 3e-5);
        assert_near(got.clamped_ends.value, at[1], 3e-5);
        assert_near(got.cents_rms_after, sqrt(least / CALIBRATE_READINGS), 1e-7);
    }
}

/* A stiff string of length 1, clamped at both ends or at one and hinged at the other. */
struct held_string {
    double b;
    bool both_ends;
};

/* What is 0 at a mode that goes as sin and cos of a x, and as sinh and cosh of c x: so the wave
 * equation with a bending term has it. */
static double mode_at(double a, void *params)
{
    const struct held_string *held = params;
    double c = sqrt(a * a + 1 / (held->b * held->b));

    if (!held->both_ends)
        return a * tanh(c) * cos(a) - c * sin(a);
    return 2 * a * c * (1 / cosh(c) - cos(a)) + (c * c - a * a) * tanh(c) * sin(a);
}

/* The factor of its lowest mode over a limp string's. */
static double exact_factor(struct held_string *held)
{
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_function f = {mode_at, held};

    gsl_root_fsolver_set(solver, &f, 3, 3.6);
    for (int k = 0; k < 60; k++)
        gsl_root_fsolver_iterate(solver);

    double a = gsl_root_fsolver_root(solver);

    gsl_root_fsolver_free(solver);
    return a * sqrt(1 + held->b * held->b * a * a) / M_PI;
}

/* The formula is a series in b, so the exact modes differ by its third power. */
static void test_stiffness_by_exact_modes(void **state)
{
    (void)state;
    static const double stiff[] = {0.002, 0.005, 0.01, 0.02};

    for (int clamped = 1; clamped <= 2; clamped++) {
        for (size_t i = 0; i < sizeof stiff / sizeof stiff[0]; i++) {
            struct held_string held = {stiff[i], clamped == 2};
            double factor;

            assert_int_equal(intonation_stiffness_factor(held.b, clamped, &factor), STATUS_OK);
            assert_near(factor, exact_factor(&held), 20 * clamped * pow(held.b, 3));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cents_written_out),
        cmocka_unit_test(test_setback_by_bracketing),
        cmocka_unit_test(test_best_by_simplex),
        cmocka_unit_test(test_fit_by_multifit),
        cmocka_unit_test(test_calibration_by_simplex),
        cmocka_unit_test(test_stiffness_by_exact_modes),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
