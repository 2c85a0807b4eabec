/* SPDX-License-Identifier: MIT */
#include <float.h>
#include <math.h>

#include "model/pitch/intonation_calibrate.h"
#include "model/pitch/intonation_reading.h"
#include "model/frets/layout.h"
#include "model/common/least_squares.h"
#include "model/neck/neck_beam.h"
#include "model/neck/neck_section.h"
#include "model/setup/rod_history.h"
#include "near.h"

/*
 * What the headers promise for numbers that are NaN, negative or infinite: they are refused
 * with the status named there, and the output is untouched.
 */

static const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
enum { BAD = sizeof bad / sizeof bad[0] };

static const double as_it_was = -271828;

static void rods_refuse(void **state)
{
    struct rod_comparison comparison = {.off_mm = as_it_was};
    struct rod_fit fit = {.per_turn_mm = as_it_was};
    double out = as_it_was;

    (void)state;
    for (int i = 0; i < BAD; i++) {
        struct rod_step step = {.turns = 1, .before_mm = bad[i], .after_mm = 0.2};

        assert_int_equal(rod_history_fit(&step, 1, 0.01, &fit), STATUS_DOMAIN);
        assert_int_equal(rod_history_predict(bad[i], 0.3, 1, &out), STATUS_DOMAIN);
        assert_int_equal(rod_history_predict(-0.1, bad[i], 1, &out), STATUS_DOMAIN);
        assert_int_equal(rod_history_predict(-0.1, 0.3, bad[i], &out), STATUS_DOMAIN);
        assert_int_equal(rod_history_compare(bad[i], 0, 0.2, 0, &comparison), STATUS_DOMAIN);
        assert_int_equal(rod_history_compare(0.2, 0, bad[i], 0, &comparison), STATUS_DOMAIN);
    }
    const struct rod_step good = {.turns = 1, .before_mm = 0.3, .after_mm = 0.2};
    assert_int_equal(rod_history_fit(&good, 1, -1, &fit), STATUS_DOMAIN);
    assert_int_equal(rod_history_fit(&good, ROD_STEPS_MAX + 1, 0.01, &fit), STATUS_DOMAIN);
    assert_int_equal(rod_history_compare(0.2, -1, 0.2, 0, &comparison), STATUS_DOMAIN);
    assert_int_equal(rod_history_compare(0.2, 0, 0.2, -1, &comparison), STATUS_DOMAIN);
    assert_int_equal(rod_history_compare(-DBL_MAX, 0, DBL_MAX, 0, &comparison), STATUS_RANGE);
    const struct rod_step huge = {.turns = 1e-300, .before_mm = -DBL_MAX, .after_mm = DBL_MAX};
    assert_int_equal(rod_history_fit(&huge, 1, 0.01, &fit), STATUS_RANGE);
    assert_near(fit.per_turn_mm, as_it_was, 0);
    assert_near(comparison.off_mm, as_it_was, 0);
    assert_near(out, as_it_was, 0);
}

/* A turn that moved little, against earlier turns that promised little: nobody can tell, unless
 * it went clearly the wrong way. A reading's uncertainty is .01 mm, of a change 2 sqrt(2) that
 * (JCGM 100:2008, 5.1.2). */
static void a_rod_is_judged_by_what_can_be_seen(void **state)
{
    enum rod_answer answer;

    (void)state;
    struct rod_step steps[2] = {{.turns = 1, .before_mm = 0.30, .after_mm = 0.20},
                                {.turns = 0.1, .before_mm = 0.20, .after_mm = 0.19}};
    assert_int_equal(rod_history_judge(steps, 2, 0.01, &answer), STATUS_OK);
    assert_int_equal(answer, ROD_ANSWER_UNKNOWN);
    steps[1].after_mm = 0.40;
    assert_int_equal(rod_history_judge(steps, 2, 0.01, &answer), STATUS_OK);
    assert_int_equal(answer, ROD_ANSWERS_BACKWARDS);
    /* Half of 0.04 promised: short of it by less than can be read. */
    steps[1] = (struct rod_step){.turns = 0.4, .before_mm = 0.20, .after_mm = 0.195};
    assert_int_equal(rod_history_judge(steps, 2, 0.013, &answer), STATUS_OK);
    assert_int_equal(answer, ROD_ANSWER_UNKNOWN);
    /* A whole turn more, and nothing. */
    steps[1] = (struct rod_step){.turns = 1, .before_mm = 0.20, .after_mm = 0.20};
    assert_int_equal(rod_history_judge(steps, 2, 0.01, &answer), STATUS_OK);
    assert_int_equal(answer, ROD_ANSWERS_NO_LONGER);
    steps[1].after_mm = 0.27;
    assert_int_equal(rod_history_judge(steps, 2, 0.01, &answer), STATUS_OK);
    assert_int_equal(answer, ROD_ANSWERS_BACKWARDS);
}

static void least_squares_refuse(void **state)
{
    double x = as_it_was, y = as_it_was;

    (void)state;
    struct least_squares sum = {.rows = 0};
    assert_near(least_squares_rms(&sum), 0, 0);
    assert_int_equal(least_squares_solve(&sum, &x, &y), STATUS_ABSENT);
    least_squares_add(&sum, 1, 2, 3);
    assert_int_equal(least_squares_solve(&sum, &x, &y), STATUS_ABSENT);
    least_squares_add(&sum, 2, 4, 5); /* a multiple of the first */
    assert_int_equal(least_squares_solve(&sum, &x, &y), STATUS_ABSENT);
    for (int i = 0; i < BAD; i++)
        for (int part = 0; part < 3; part++) {
            struct least_squares spoilt = {.rows = 0};

            least_squares_add(&spoilt, 1, 0, 1);
            least_squares_add(&spoilt, part == 0 ? bad[i] : 0, part == 1 ? bad[i] : 1,
                              part == 2 ? bad[i] : 1);
            assert_int_equal(least_squares_solve(&spoilt, &x, &y), STATUS_DOMAIN);
        }
    assert_near(x, as_it_was, 0);
    assert_near(y, as_it_was, 0);
    /* x = 2, y = -3: 1 x = 2, 1 y = -3, x + y = -1. */
    struct least_squares told = {.rows = 0};
    least_squares_add(&told, 1, 0, -2);
    least_squares_add(&told, 0, 1, 3);
    least_squares_add(&told, 1, 1, 1);
    assert_int_equal(least_squares_solve(&told, &x, &y), STATUS_OK);
    assert_near(x, 2, 1e-12);
    assert_near(y, -3, 1e-12);
}

static void layouts_refuse(void **state)
{
    struct layout_fret frets[LAYOUT_FRETS_MAX + 1] = {{.dot_mm = as_it_was}};
    const double gauges[3] = {0.3, 0.4, 0.5};
    double x_mm[3] = {0, 30, 58}, centres[3] = {as_it_was, as_it_was, as_it_was};

    (void)state;
    assert_int_equal(layout_list_frets(2, NULL, frets), STATUS_ABSENT);
    assert_int_equal(layout_list_frets(0, x_mm, frets), STATUS_DOMAIN);
    assert_int_equal(layout_list_frets(LAYOUT_FRETS_MAX + 1, x_mm, frets), STATUS_DOMAIN);
    x_mm[0] = 1;
    assert_int_equal(layout_list_frets(2, x_mm, frets), STATUS_DOMAIN);
    x_mm[0] = 0;
    x_mm[2] = 30;
    assert_int_equal(layout_list_frets(2, x_mm, frets), STATUS_DOMAIN);
    assert_near(frets[0].dot_mm, as_it_was, 0);
    for (int i = 0; i < BAD; i++) {
        assert_int_equal(layout_spread_nut(bad[i], 3, 3, LAYOUT_EQUAL_GAPS, 3, gauges, centres),
                         STATUS_DOMAIN);
        assert_int_equal(layout_spread_nut(43, bad[i], 3, LAYOUT_EQUAL_GAPS, 3, gauges, centres),
                         STATUS_DOMAIN);
        assert_int_equal(layout_spread_saddle(bad[i], LAYOUT_EQUAL_GAPS, 3, gauges, centres),
                         STATUS_DOMAIN);
        const double spoilt[3] = {0.3, bad[i], 0.5};
        assert_int_equal(layout_spread_nut(43, 3, 3, LAYOUT_EQUAL_GAPS, 3, spoilt, centres),
                         STATUS_DOMAIN);
    }
    assert_int_equal(layout_spread_nut(43, 3, 3, LAYOUT_EQUAL_GAPS, 0, gauges, centres),
                     STATUS_DOMAIN);
    assert_int_equal(
        layout_spread_nut(43, 3, 3, LAYOUT_EQUAL_GAPS, LAYOUT_STRINGS_MAX + 1, gauges, centres),
        STATUS_DOMAIN);
    assert_int_equal(layout_spread_nut(43, 3, 3, LAYOUT_EQUAL_GAPS, 3, NULL, centres),
                     STATUS_ABSENT);
    assert_int_equal(layout_spread_saddle(50, LAYOUT_EQUAL_GAPS, 1, gauges, centres),
                     STATUS_DOMAIN);
    /* Strings that would lie on each other. */
    assert_int_equal(layout_spread_saddle(0.5, LAYOUT_EQUAL_GAPS, 3, gauges, centres),
                     STATUS_RANGE);
    assert_near(centres[1], as_it_was, 0);
}

static void sections_refuse(void **state)
{
    struct section_stiffness section = {.axis_mm = as_it_was};

    (void)state;
    assert_int_not_equal(section_compose(NULL, 1, &section), STATUS_OK);
    for (int i = 0; i < BAD; i++) {
        const struct section_part parts[] = {section_rectangle(10000, 40, 0, 5),
                                             section_rectangle(bad[i], 40, 5, 20)};
        const struct section_part flat[] = {section_rectangle(10000, bad[i], 0, 5)};

        assert_int_not_equal(section_compose(parts, 2, &section), STATUS_OK);
        assert_int_not_equal(section_compose(flat, 1, &section), STATUS_OK);
    }
    const struct section_part huge[] = {section_rectangle(1e300, 1e150, -1e150, 1e150)};
    assert_int_not_equal(section_compose(huge, 1, &section), STATUS_OK);
    assert_near(section.axis_mm, as_it_was, 0);
}

static void necks_refuse(void **state)
{
    double out = as_it_was;

    (void)state;
    for (int i = 0; i < BAD; i++) {
        assert_int_not_equal(neck_beam_find_wood_left(bad[i], 20, 10, &out), STATUS_OK);
        assert_int_not_equal(neck_beam_find_stop_depth(10, 5, bad[i], 0.1, &out), STATUS_OK);
    }
    assert_near(out, as_it_was, 0);
}

static void readings_of_pitch_refuse(void **state)
{
    struct fret_cents cents[2] = {{.fret = 5, .cents = 2}, {.fret = 12, .cents = 4}};
    struct intonation_fit fit = {.cents_left_rms = as_it_was};
    struct intonation_calibration calibration = {.correlation = as_it_was};
    double out = as_it_was;

    (void)state;
    for (int i = 0; i < BAD; i++) {
        assert_int_equal(intonation_fit_readings(bad[i], cents, 2, &fit), STATUS_DOMAIN);
        cents[1].cents = bad[i];
        assert_int_equal(intonation_fit_readings(648, cents, 2, &fit), STATUS_DOMAIN);
        cents[1].cents = 4;
        assert_int_equal(intonation_setback_change(648, 324, bad[i], &out), STATUS_DOMAIN);
    }
    assert_int_equal(intonation_fit_readings(648, cents, -1, &fit), STATUS_DOMAIN);
    cents[1].fret = 0;
    assert_int_equal(intonation_fit_readings(648, cents, 2, &fit), STATUS_DOMAIN);
    cents[1].fret = INTONATION_FRETS_MAX + 1;
    assert_int_equal(intonation_fit_readings(648, cents, 2, &fit), STATUS_DOMAIN);
    assert_int_equal(intonation_fit_readings(648, cents, 1, &fit), STATUS_ABSENT);
    assert_int_equal(intonation_calibrate(NULL, 0, 0.3, 1, 1, &calibration), STATUS_ABSENT);
    assert_near(fit.cents_left_rms, as_it_was, 0);
    assert_near(calibration.correlation, as_it_was, 0);
    assert_near(out, as_it_was, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rods_refuse),
        cmocka_unit_test(a_rod_is_judged_by_what_can_be_seen),
        cmocka_unit_test(least_squares_refuse),
        cmocka_unit_test(layouts_refuse),
        cmocka_unit_test(sections_refuse),
        cmocka_unit_test(necks_refuse),
        cmocka_unit_test(readings_of_pitch_refuse),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
