/* SPDX-License-Identifier: MIT */
#include "model/pitch/pitch_assumption.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "model/derive/derive_pitch_u.h"
#include "model/pitch/saddle_fit.h"
#include "near.h"
#include "survey_record.h"

/* The centres are what the fields fall back to, so that the table and the model say the same. */
static void test_centres(void **state)
{
    static const struct {
        enum pitch_assumption_id id;
        enum field_id field;
    } pairs[] = {
        {PITCH_ASSUMPTION_ENDS_ASSUMED, FIELD_CLAMPED_ENDS},
        {PITCH_ASSUMPTION_DEPTH_ASSUMED, FIELD_PRESS_DEPTH},
        {PITCH_ASSUMPTION_DISTANCE_ASSUMED, FIELD_PRESS_DISTANCE},
        {PITCH_ASSUMPTION_FREE_ASSUMED, FIELD_FREE_LENGTH},
        {PITCH_ASSUMPTION_MODULUS_STEEL, FIELD_CORE_MODULUS},
    };
    struct record record;

    (void)state;
    build_record(&record, "");
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        assert_near(pitch_assumption_get(pairs[i].id)->centre,
                    record_or_fallback(&record, pairs[i].field), 1e-9);
    record_done(&record);
}

static double density(enum pitch_assumption_shape shape, double x)
{
    switch (shape) {
    case SHAPE_NORMAL:
        return exp(-x * x / 2) / sqrt(2 * 3.14159265358979323846);
    case SHAPE_RECTANGLE:
        return fabs(x) <= 1 ? 0.5 : 0;
    case SHAPE_TRIANGLE:
        return fmax(1 - fabs(x), 0);
    case SHAPE_FALLING:
        return x >= 0 ? 2 * fmax(1 - x, 0) : 0;
    case SHAPE_UPWARD:
        return x >= 0 && x <= 1 ? 1 : 0;
    }
    return (double)NAN;
}

/* The moments against sums over the densities that the words say. */
static void test_moments(void **state)
{
    enum { STEPS = 40000 };
    const double far = 12, step = 2 * far / STEPS;

    (void)state;
    for (int shape = SHAPE_NORMAL; shape <= SHAPE_UPWARD; shape++)
        for (int power = 0; power <= PITCH_ASSUMPTION_MOMENTS; power++) {
            double sum = 0;

            for (int i = 0; i < STEPS; i++) {
                const double x = -far + (i + 0.5) * step;

                sum += step * pow(x, power) * density((enum pitch_assumption_shape)shape, x);
            }
            assert_near(
                sum,
                power == 0
                    ? 1
                    : pitch_assumption_ways((enum pitch_assumption_shape)shape)->moment[power - 1],
                1e-3);
        }
}

static void derive_with_u(struct record *ret_record, const char *more, struct derived *ret_derived)
{
    survey_record_derive(ret_record, more, ret_derived);
    derive_predicted_u(place_current(ret_record), ret_derived);
}

static double predicted_u(const char *more, int string)
{
    struct derived derived;
    struct record record;

    derive_with_u(&record, more, &derived);
    const double u = derived.figures.at[FIGURE_SETBACK_PREDICTED][string].u;

    record_done(&record);
    return u;
}

/* What is entered is known better than what is assumed. */
static void test_entered_is_narrower(void **state)
{
    static const char *const more[] = {
        "model clamped_ends = 1",
        "model press_depth = 0 mm",
        "string.6 core = .0185 in",
        "string.6 weigh_mass = 9 g\nstring.6 weigh_length = 1000 mm",
    };
    const double assumed = predicted_u("", 6);

    (void)state;
    assert_true(assumed > 0.5 && assumed < 6);
    for (size_t i = 0; i + 1 < sizeof more / sizeof more[0]; i++)
        assert_true(predicted_u(more[i], 6) < 0.97 * assumed);
    assert_true(predicted_u(more[3], 6) != assumed);
}

/* The parts, each alone, make the whole by their squares but for what bends and leans. */
static void test_parts(void **state)
{
    struct pitch_parts parts;
    struct derived derived;
    struct record record;
    double squares = 0;

    (void)state;
    derive_with_u(&record, "", &derived);
    const double u = derived.figures.at[FIGURE_SETBACK_PREDICTED][6].u;

    derive_pitch_parts(place_current(&record), &derived.setup, derived.string, &derived.lines,
                       &derived.pitch[6], &derived.figures, 6, OUTCOME_SETBACK, &parts);
    assert_true(parts.count >= 5);
    for (int i = 0; i < parts.count; i++) {
        assert_true(parts.part[i].u > 0 && parts.part[i].u < u);
        assert_true(i == 0 || parts.part[i].u <= parts.part[i - 1].u);
        squares += parts.part[i].u * parts.part[i].u;
    }
    assert_near_relative(sqrt(squares), u, 0.1);
    record_done(&record);
}

/* Alone, the ends' part is what two predictions with other ends are apart: the triangle's standard
 * uncertainty is its half width over sqrt(6) (GUM 4.3.9), and both ways are nearly straight. */
static void test_ends_alone(void **state)
{
    struct derived derived, low, high;
    struct pitch_parts parts;
    struct record record;
    double ends_u = (double)NAN;

    (void)state;
    survey_record_derive(&record, "model clamped_ends = 0.5", &low);
    record_done(&record);
    survey_record_derive(&record, "model clamped_ends = 1.5", &high);
    record_done(&record);
    survey_record_derive(&record, "", &derived);
    derive_pitch_parts(place_current(&record), &derived.setup, derived.string, &derived.lines,
                       &derived.pitch[6], &derived.figures, 6, OUTCOME_SETBACK, &parts);
    for (int i = 0; i < parts.count; i++)
        if (strcmp(parts.part[i].label, "clamped ends") == 0)
            ends_u = parts.part[i].u;
    const double slope = high.figures.at[FIGURE_SETBACK_PREDICTED][6].value -
                         low.figures.at[FIGURE_SETBACK_PREDICTED][6].value;

    assert_near_relative(ends_u, 2 * slope / sqrt(6), 0.06);
    record_done(&record);
}

/* Cents that tell depth and ends take both assumptions' place. */
static void test_by_tuner(void **state)
{
    struct derived played, derived;
    struct record record;

    (void)state;
    derive_with_u(&record, "", &played);
    const double before = played.figures.at[FIGURE_SETBACK_PREDICTED][2].u;

    for (int fret = 1; fret <= 19; fret++) {
        const struct reading_key key = reading_key_pass_at(FIELD_CENTS, 1, 1, 2, fret);
        char text[24];

        snprintf(text, sizeof text, "%.2f", assert_given(played.pitch[2].cents[fret]) + 0.2);
        assert_int_equal(record_put(&record, &key, text, false, NULL), STATUS_OK);
    }
    derive_current(&record, &derived);
    derive_predicted_u(place_current(&record), &derived);
    assert_true(derived.figures.at[FIGURE_SETBACK_PREDICTED][2].u < 0.8 * before);
    assert_near(derived.figures.at[FIGURE_SETBACK_PREDICTED][1].u,
                played.figures.at[FIGURE_SETBACK_PREDICTED][1].u, 1e-9);
    record_done(&record);
}

/* Nobody pays for it who does not ask, and asking again changes nothing. */
static void test_only_when_asked(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "", &derived);
    const struct figure *figure = &derived.figures.at[FIGURE_SETBACK_PREDICTED][6];

    assert_true(figure->known != KNOWN_ABSENT && !derived.has_predicted_u);
    assert_near(figure->u, 0, 0);
    derive_predicted_u(place_current(&record), &derived);
    const double once = figure->u;

    assert_true(once > 0 && derived.has_predicted_u);
    assert_true(derived.pitch[6].cents_u[12] > 0);
    derive_predicted_u(place_current(&record), &derived);
    assert_near(figure->u, once, 0);
    record_done(&record);
}

static void assert_same_outcomes(const struct pitch_outcomes *a, const struct pitch_outcomes *b)
{
    for (int i = 0; i < OUTCOME_COUNT_; i++)
        assert_true(isnan(a->at[i]) ? isnan(b->at[i]) : a->at[i] == b->at[i]);
}

/* Taking over what the heights leave alone comes to the same as finding all anew. */
static void test_raised(void **state)
{
    struct pitch_outcomes centre, known, whole, raised;
    struct pitch_case_store store;
    struct pitch_case middle;
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "", &derived);
    assert_true(derive_pitch_case(&record, &derived.setup, &derived.string[6], &derived.lines,
                                  &derived.lines, 6, &store, &middle));
    assert_true(middle.has_now && middle.has_target);
    pitch_predict(&middle, &centre);
    pitch_predict_near(&middle, &centre, &known);
    for (int way = 0; way < 8; way++) {
        struct pitch_case_store bent = store;
        struct pitch_case moved = middle;

        moved.now.saddle_height_mm += way == 1 ? 0.1 : 0;
        moved.target.nut_height_mm += way == 2 ? 0.1 : 0;
        bent.now_mm[5] += way == 3 ? 0.05 : 0;
        bent.target_mm[5] += way == 4 ? 0.05 : 0;
        moved.ends.setback_mm += way == 5 ? 0.5 : 0;
        if (way == 6)
            pitch_assumption_move(ABOUT_ENDS, -0.25, &moved);
        if (way == 7)
            pitch_assumption_move(ABOUT_CORE, 0.05, &moved);
        moved.now.crown_mm = bent.now_mm;
        moved.target.crown_mm = bent.target_mm;
        pitch_predict_near(&moved, &centre, &whole);
        pitch_predict_beside(&moved, &centre, &middle, &known, &raised);
        assert_same_outcomes(&whole, &raised);
        assert_int_equal(whole.at[OUTCOME_OPEN + 5] != known.at[OUTCOME_OPEN + 5],
                         way % 2 == 1 || way == 6);
        assert_int_equal(whole.at[OUTCOME_SETBACK_BEST] != known.at[OUTCOME_SETBACK_BEST],
                         way == 2 || way == 4 || way > 5);
    }
    record_done(&record);
}

/* Geometry: on a line nothing is needed; a step off it takes what the best line leaves. */
static void test_saddle_strip(void **state)
{
    const struct saddle_contact line[] = {{1, 1.5}, {2, 2}, {3, 2.5}, {6, 4}};
    /* Six strings up and down by 1: level, the strip is 1; the best slant cannot do better than
     * through two neighbours' edges. */
    const struct saddle_contact zigzag[] = {{1, 0}, {2, 1}, {3, 0}, {4, 1}, {5, 0}, {6, 1}};
    const struct saddle_contact moved[] = {{6, 3}, {6, 4.25}};

    (void)state;
    assert_near(saddle_fit_strip(line, 4), 0, 1e-12);
    assert_near(saddle_fit_strip(moved, 2), 1.25, 1e-12);
    assert_near(saddle_fit_strip(moved, 1), 0, 0);
    assert_near(saddle_fit_strip(moved, 0), 0, 0);
    double least = (double)INFINITY;

    for (int i = -2000; i <= 2000; i++) {
        double low = (double)INFINITY, high = -(double)INFINITY;

        for (int k = 0; k < 6; k++) {
            low = fmin(low, zigzag[k].setback_mm - i / 1000.0 * zigzag[k].across);
            high = fmax(high, zigzag[k].setback_mm - i / 1000.0 * zigzag[k].across);
        }
        least = fmin(least, high - low);
    }
    assert_near(saddle_fit_strip(zigzag, 6), least, 2e-3);
    const struct saddle_fit fit = saddle_fit_find(3, moved, 2);

    assert_true(fit.known);
    assert_near(fit.room_mm, 2, 1e-12);
    assert_false(saddle_fit_find(0, moved, 2).known);
    assert_false(saddle_fit_find((double)NAN, moved, 2).known);
    assert_near(saddle_fit_find(0.5, moved, 2).room_mm, 0, 0);
}

static struct saddle_fit saddle_of(const char *more)
{
    struct derived derived;
    struct record record;

    survey_record_derive(&record, "bridge kind = blank\nvisit.1.pass.1 cents.6.12 = 8", &derived);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    record_done(&record);
    return derived.moves.move[MOVE_PITCH].saddle;
}

/* Only a blank's saddle of a known width is judged. */
static void test_saddle_of_a_move(void **state)
{
    (void)state;
    assert_false(saddle_of("").known);
    assert_false(saddle_of("bridge saddle_width = 3 mm\nbridge kind = screw").known);
    const struct saddle_fit fit = saddle_of("bridge saddle_width = 3 mm");

    assert_true(fit.known);
    assert_near(fit.room_mm, 2, 1e-9);
    assert_true(fit.needed_mm > 2 && fit.needed_mm < 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_centres),
        cmocka_unit_test(test_moments),
        cmocka_unit_test(test_entered_is_narrower),
        cmocka_unit_test(test_parts),
        cmocka_unit_test(test_ends_alone),
        cmocka_unit_test(test_by_tuner),
        cmocka_unit_test(test_only_when_asked),
        cmocka_unit_test(test_raised),
        cmocka_unit_test(test_saddle_strip),
        cmocka_unit_test(test_saddle_of_a_move),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
