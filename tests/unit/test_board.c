/* SPDX-License-Identifier: MIT */
#include "model/frets/board.h"

#include <limits.h>
#include <math.h>
#include <stdbool.h>

#include "near.h"

#define SCALE_MM 647.7 /* 25.5 in */

static struct board_plan plan_single(void)
{
    return (struct board_plan){.scale_treble_mm = SCALE_MM,
                               .scale_bass_mm = SCALE_MM,
                               .strings = 6,
                               .frets = 22,
                               .join_fret = 16,
                               .heel_fret = -1,
                               .action_fret = 12,
                               .relief_fret = -1,
                               .relief_end_low = 1,
                               .relief_end_high = -1};
}

static bool has(const struct findings *findings, enum finding_id id, int number)
{
    for (int i = 0; i < findings->count; i++)
        if (findings->list[i].id == id && findings->list[i].number == number)
            return true;
    return false;
}

/* G. Byers, "Classical guitar intonation", American Lutherie 47 (1996): string lengths of
 * neighbouring frets stand as 2^(1/12), the traditional divisor is 17.817 (read). */
static void test_published_stations(void **state)
{
    (void)state;
    for (int n = 1; n <= FRETS_MAX; n++) {
        const double before = SCALE_MM - board_station_mm(SCALE_MM, n - 1);
        const double after = SCALE_MM - board_station_mm(SCALE_MM, n);

        assert_near(before / after, pow(2, 1 / 12.0), 1e-14);
        assert_near(before / (before - after), 17.817, 0.0005);
    }
    assert_near(board_station_mm(SCALE_MM, 0), 0, 0);
    assert_near(board_station_mm(SCALE_MM, 12), SCALE_MM / 2, 1e-12);
    assert_near(board_station_mm(SCALE_MM, 24), SCALE_MM * 3 / 4, 1e-12);
}

/* Equal temperament (ISO 16:1975 for A4): what is left of the string at fret n sounds n
 * semitones up; a fifth (7) is 1.4983, a fourth (5) 1.3348 (4 decimals, any table). */
static void test_notes_at_stations(void **state)
{
    (void)state;
    assert_near(SCALE_MM / (SCALE_MM - board_station_mm(SCALE_MM, 7)), 1.4983, 0.00005);
    assert_near(SCALE_MM / (SCALE_MM - board_station_mm(SCALE_MM, 5)), 1.3348, 0.00005);
}

static void test_defaults(void **state)
{
    struct findings findings = {.count = 0};
    struct board_plan plan = plan_single();
    struct board board;

    (void)state;
    assert_int_equal(board_init(&board, &plan, &findings), STATUS_OK);
    assert_int_equal(findings.count, 0);
    assert_true(board.has_curve && board.has_relief);
    assert_int_equal(board.heel_fret, 13);
    assert_int_equal(board.end_high, 16);
    assert_int_equal(board.relief_fret, 8);
    plan.pocket = true;
    plan.join_fret = 17;
    assert_int_equal(board_init(&board, &plan, &findings), STATUS_OK);
    assert_int_equal(board.heel_fret, 16);
    assert_int_equal(board.relief_fret, 9);
}

static void test_multi_scale(void **state)
{
    struct findings findings = {.count = 0};
    struct board_plan plan = plan_single();
    struct board board;

    (void)state;
    plan.strings = 7;
    plan.scale_bass_mm = 685.8;
    plan.setback_mm[1] = 2;
    plan.setback_mm[7] = 5;
    assert_int_equal(board_init(&board, &plan, &findings), STATUS_OK);
    assert_near(board.scale_mm[1], 647.7, 0);
    assert_near(board.scale_mm[4], (647.7 + 685.8) / 2, 1e-12);
    assert_near(board.scale_mm[7], 685.8, 1e-12);
    assert_near(board.scale_mm[LANE_MIDDLE], (647.7 + 685.8) / 2, 1e-12);
    assert_near(board.station_mm[7][12], 342.9, 1e-12);
    assert_near(board.contact_mm[7], 690.8, 1e-12);
    assert_near(board.contact_mm[4], board.scale_mm[4], 0);
    assert_near(board.contact_mm[LANE_MIDDLE], board.scale_mm[LANE_MIDDLE] + 3.5, 1e-12);
}

/* The chord runs through the crowns of the two relief ends, and the neck sags under it. */
static void test_chord(void **state)
{
    struct findings findings = {.count = 0};
    const struct board_plan plan = plan_single();
    struct board board;

    (void)state;
    assert_int_equal(board_init(&board, &plan, &findings), STATUS_OK);
    for (int lane = 0; lane <= board.strings; lane++) {
        assert_near(board.bend[lane][1], 0, 1e-9);
        assert_near(board.bend[lane][16], 0, 1e-9);
        for (int n = 2; n < 16; n++)
            assert_true(board.bend[lane][n] < 0);
        assert_true(board.bend[lane][0] > 0);
        assert_near(board.ramp[lane][16], 0, 0);
        assert_near(board.ramp[lane][22], 1, 0);
        assert_true(board.tilt[lane] > 0);
    }
}

struct bad_plan {
    struct board_plan plan;
    enum finding_id finding;
    int number;
    bool curve, relief;
    int action_fret;
};

static void check_bad(const struct bad_plan *bad)
{
    struct findings findings = {.count = 0};
    struct board board;

    assert_int_equal(board_init(&board, &bad->plan, &findings), STATUS_OK);
    assert_true(has(&findings, bad->finding, bad->number));
    assert_int_equal(board.has_curve, bad->curve);
    assert_int_equal(board.has_relief, bad->relief);
    assert_int_equal(board.action_fret, bad->action_fret);
}

static void test_impossible_frets(void **state)
{
    struct bad_plan bad[] = {
        {plan_single(), FINDING_JOIN_BEYOND_FRETS, 23, false, false, 12},
        {plan_single(), FINDING_JOIN_ABSENT, 0, false, false, 12},
        {plan_single(), FINDING_HEEL_OUTSIDE, 23, false, false, 12},
        {plan_single(), FINDING_HEEL_OUTSIDE, -3, false, false, 12},
        {plan_single(), FINDING_ENDS_CROSSED, 16, false, false, 12},
        {plan_single(), FINDING_ENDS_CROSSED, 23, false, false, 12},
        {plan_single(), FINDING_RELIEF_FRET_OUTSIDE, 1, true, false, 12},
        {plan_single(), FINDING_RELIEF_FRET_OUTSIDE, 16, true, false, 12},
        {plan_single(), FINDING_RELIEF_NO_LEVER, 0, true, false, 12},
        {plan_single(), FINDING_ACTION_FRET_ZERO, 0, true, true, -1},
        {plan_single(), FINDING_ACTION_FRET_ZERO, 0, true, true, -1},
        {plan_single(), FINDING_ACTION_FRET_BEYOND, 23, true, true, -1},
        {plan_single(), FINDING_CONTACT_SHORT, 2, true, true, 12},
    };

    (void)state;
    bad[0].plan.join_fret = 23;
    bad[1].plan.join_fret = -1;
    bad[2].plan.heel_fret = 23;
    bad[3].plan.join_fret = 0;
    bad[3].plan.relief_end_high = 12;
    bad[4].plan.relief_end_low = 16;
    bad[5].plan.relief_end_high = 23;
    bad[6].plan.relief_fret = 1;
    bad[7].plan.relief_fret = 16;
    bad[8].plan.heel_fret = 0;
    bad[9].plan.action_fret = 0;
    bad[10].plan.action_fret = 1;
    bad[11].plan.action_fret = 23;
    bad[12].plan.setback_mm[2] = -200;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        check_bad(&bad[i]);
}

/* Without a join the curve still stands when both ends and the heel are given. */
static void test_join_not_needed(void **state)
{
    struct findings findings = {.count = 0};
    struct board_plan plan = plan_single();
    struct board board;

    (void)state;
    plan.join_fret = -1;
    plan.heel_fret = 13;
    plan.relief_end_high = 15;
    assert_int_equal(board_init(&board, &plan, &findings), STATUS_OK);
    assert_int_equal(findings.count, 0);
    assert_true(board.has_relief);
    assert_int_equal(board.join_fret, -1);
}

static void test_no_board_at_all(void **state)
{
    const double scales[] = {0, -1, (double)NAN, (double)INFINITY};
    struct findings findings = {.count = 0};
    struct board board = {.strings = 99};
    struct board_plan plan = plan_single();

    (void)state;
    for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++) {
        plan = plan_single();
        plan.scale_treble_mm = scales[i];
        assert_int_equal(board_init(&board, &plan, &findings), STATUS_DOMAIN);
        plan = plan_single();
        plan.scale_bass_mm = scales[i];
        assert_int_equal(board_init(&board, &plan, &findings), STATUS_DOMAIN);
    }
    const int strings[] = {0, -1, STRINGS_MAX + 1, INT_MAX, INT_MIN};
    for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
        plan = plan_single();
        plan.strings = strings[i];
        assert_int_equal(board_init(&board, &plan, &findings), STATUS_DOMAIN);
    }
    const int frets[] = {-1, FRETS_MAX + 1, INT_MAX, INT_MIN};
    for (size_t i = 0; i < sizeof frets / sizeof frets[0]; i++) {
        plan = plan_single();
        plan.frets = frets[i];
        assert_int_equal(board_init(&board, &plan, &findings), STATUS_DOMAIN);
    }
    assert_int_equal(board.strings, 99);
    assert_int_equal(findings.count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_stations),
        cmocka_unit_test(test_notes_at_stations),
        cmocka_unit_test(test_defaults),
        cmocka_unit_test(test_multi_scale),
        cmocka_unit_test(test_chord),
        cmocka_unit_test(test_impossible_frets),
        cmocka_unit_test(test_join_not_needed),
        cmocka_unit_test(test_no_board_at_all),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
