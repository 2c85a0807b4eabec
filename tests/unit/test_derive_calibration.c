/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_calibration.h"

#include <math.h>
#include <stdio.h>

#include "near.h"
#include "survey_record.h"

/* The inverse of the predicted cents: from readings made with a known press depth and known ends,
 * the model has to find both. */

static void put_cents(struct record *record, const struct derived *truth, int string, int fret)
{
    const struct reading_key key = reading_key_pass_at(FIELD_CENTS, 1, 1, string, fret);
    char text[40];

    snprintf(text, sizeof text, "%.9f", assert_given(truth->pitch[string].cents[fret]));
    assert_int_equal(record_put(record, &key, text, false, NULL), STATUS_OK);
}

static enum status survey(const struct record *record, int string,
                          struct intonation_calibration *ret_fit)
{
    struct derived derived;

    derive_current(record, &derived);
    return derive_calibration(place_of(record, 1, 1), &derived.setup, &derived.string[string],
                              &derived.lines, string, ret_fit);
}

static void test_both_come_back(void **state)
{
    struct intonation_calibration fit;
    struct derived truth;
    struct record record;

    (void)state;
    survey_record_derive(&record, "model press_depth = 0.3 mm\nmodel clamped_ends = 1.4", &truth);
    build_record_add(&record, "model press_depth = 0 mm\nmodel clamped_ends = 1");
    for (int fret = 2; fret <= 14; fret += 2)
        put_cents(&record, &truth, 6, fret);
    assert_int_equal(survey(&record, 6, &fit), STATUS_OK);
    assert_int_equal(fit.readings, 7);
    assert_near(fit.press_depth_mm.value, 0.3, 1e-4);
    assert_near(fit.clamped_ends.value, 1.4, 1e-3);
    assert_true(fit.press_depth_mm.fitted && !fit.press_depth_mm.at_limit);
    assert_near(fit.cents_rms_after, 0, 1e-4);
    assert_true(fit.cents_rms_before > 0.5);
    assert_true(fit.press_depth_mm.expanded_u > 0 && fit.clamped_ends.expanded_u > 0);
    record_done(&record);
}

/* Flatter than any player can press: the depth stops at nothing and says so. */
static void test_at_the_limit(void **state)
{
    struct intonation_calibration fit;
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1.pass.1 cents.1.3 = -20\n"
                                 "visit.1.pass.1 cents.1.7 = -20\n"
                                 "visit.1.pass.1 cents.1.12 = -20");
    assert_int_equal(survey(&record, 1, &fit), STATUS_OK);
    assert_near(fit.press_depth_mm.value, 0, 1e-9);
    assert_true(fit.press_depth_mm.at_limit && !fit.press_depth_mm.pinned);
    record_done(&record);
}

static void test_too_few(void **state)
{
    struct intonation_calibration fit = {.readings = 77};
    struct record record;

    (void)state;
    survey_record_build(&record, "visit.1.pass.1 cents.1.3 = 2\nvisit.1.pass.1 cents.1.12 = 4");
    assert_int_equal(survey(&record, 1, &fit), STATUS_ABSENT);
    /* 19 frets: a reading at the 24th is nobody's. */
    build_record_add(&record, "visit.1.pass.1 cents.1.24 = 4");
    assert_int_equal(survey(&record, 1, &fit), STATUS_ABSENT);
    assert_int_equal(survey(&record, 2, &fit), STATUS_ABSENT);
    assert_int_equal(fit.readings, 77);
    build_record_add(&record, "visit.1.pass.1 cents.1.7 = 4");
    assert_int_equal(survey(&record, 1, &fit), STATUS_OK);
    assert_int_equal(fit.readings, 3);
    record_done(&record);
}

static void test_unknown_string(void **state)
{
    static const char three[] = "visit.1.pass.1 cents.6.3 = 2\nvisit.1.pass.1 cents.6.7 = 3\n"
                                "visit.1.pass.1 cents.6.12 = 4";
    struct intonation_calibration fit;
    struct record record;

    (void)state;
    survey_record_build(&record, three);
    build_record_drop(&record, "string.6 core");
    assert_int_equal(survey(&record, 6, &fit), STATUS_ABSENT);
    record_done(&record);
    survey_record_build(&record, three);
    build_record_drop(&record, "visit.1.pass.1 relief");
    assert_int_equal(survey(&record, 6, &fit), STATUS_ABSENT);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_both_come_back),
        cmocka_unit_test(test_at_the_limit),
        cmocka_unit_test(test_too_few),
        cmocka_unit_test(test_unknown_string),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
