/* SPDX-License-Identifier: MIT */
#include "near.h"
#include "worked_strings.h"

#include "model/pitch/intonation.h"
#include "model/pitch/intonation_reading.h"
#include "model/strings/pitch.h"
#include "model/strings/tension.h"

/* The figures of the worked example have nine digits and hold to 1e-6. */
#define SHARE 1e-6

static void test_pitch_mass_and_tension(void **state)
{
    (void)state;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        const struct worked_string *want = &worked_strings[i];
        struct string_build build = worked_build(want);
        double hz, mass, tension, share;

        assert_int_equal(pitch_frequency(want->semitone, PITCH_A4_HZ, &hz), STATUS_OK);
        assert_int_equal(tension_mass_from_build(&build, &mass), STATUS_OK);
        assert_int_equal(
            tension_from_pitch(mass, WORKED_SCALE_MM + worked_setback_mm[i], hz, &tension),
            STATUS_OK);
        assert_int_equal(tension_stress_share(&build, tension, &share), STATUS_OK);
        assert_near_relative(hz, want->pitch_hz, SHARE);
        assert_near_relative(mass * 1000, want->mass_g_per_m, SHARE);
        assert_near_relative(tension, worked_tension_n[i], SHARE);
        assert_near_relative(share, want->stress_share, SHARE);
    }
}

static void test_cents_as_found(void **state)
{
    (void)state;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        const struct worked_string *want = &worked_strings[i];
        const struct intonation_ends ends = {worked_setback_mm[i], 0};
        struct worked_board board;
        struct intonation_setup setup;
        double cents[WORKED_FRETS + 1];

        worked_as_found(i, &board, &setup);
        assert_int_equal(intonation_find_cents(&setup, &ends, cents), STATUS_OK);
        assert_near(cents[0], 0, 0);
        for (int n = 1; n <= WORKED_FRETS; n++)
            assert_near_relative(cents[n], want->cents[n], SHARE);
    }
}

static void test_setback_predicted(void **state)
{
    (void)state;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        struct worked_board board;
        struct intonation_setup setup;
        double setback;

        worked_at_target(i, &board, &setup);
        assert_int_equal(intonation_find_setback(&setup, 12, &setback), STATUS_OK);
        assert_near_relative(setback, worked_strings[i].setback_predicted_mm, SHARE);
    }
}

static void test_setback_best(void **state)
{
    (void)state;
    for (int i = 0; i < WORKED_STRINGS; i++) {
        const struct worked_string *want = &worked_strings[i];
        struct worked_board board;
        struct intonation_setup setup;
        struct intonation_best best;

        worked_at_target(i, &board, &setup);
        assert_int_equal(intonation_find_best(&setup, 1, 12, &best), STATUS_OK);
        assert_near_relative(best.ends.setback_mm, want->setback_best_mm, SHARE);
        assert_near_relative(best.ends.nut_advance_mm, want->nut_advance_best_mm, SHARE);
        assert_near_relative(best.cents_rms, want->cents_best_rms, SHARE);
    }
}

static void test_setback_change(void **state)
{
    (void)state;
    int read = 0;

    for (int i = 0; i < WORKED_STRINGS; i++) {
        const struct worked_string *want = &worked_strings[i];
        double change;

        if (want->cents_at_12 == 0)
            continue;
        assert_int_equal(intonation_setback_change(WORKED_SCALE_MM + worked_setback_mm[i],
                                                   WORKED_SCALE_MM / 2, want->cents_at_12, &change),
                         STATUS_OK);
        assert_near_relative(change, want->setback_change_mm, SHARE);
        read++;
    }
    assert_int_equal(read, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pitch_mass_and_tension), cmocka_unit_test(test_cents_as_found),
        cmocka_unit_test(test_setback_predicted),      cmocka_unit_test(test_setback_best),
        cmocka_unit_test(test_setback_change),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
