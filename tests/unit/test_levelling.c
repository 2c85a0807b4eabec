/* SPDX-License-Identifier: MIT */
#include "model/frets/levelling.h"

#include <math.h>

#include "near.h"
#include "seeded.h"

enum { FRETS = 6 };

static const double spots[FRETS + 1] = {(double)NAN, 0.05, -0.02, 0, 0.10, -0.08, 0.01};
static const struct maybe crowns[FRETS + 1] = {{0, false},   {1.1, true},  {1.1, true}, {0, false},
                                               {0.68, true}, {0.62, true}, {1.0, true}};
static const struct maybe none[FRETS + 1] = {{0, false}};

static void test_spots_only(void **state)
{
    const double take[FRETS + 1] = {0, 0.05, 0, 0, 0.10, 0, 0.01};
    struct levelling_fret fret[FRETS + 1];
    struct levelling_summary summary;
    (void)state;
    assert_int_equal(
        levelling_make_plan(LEVELLING_SPOTS, FRETS, spots, crowns, 0.6, fret, &summary), STATUS_OK);
    for (int n = 1; n <= FRETS; n++)
        assert_near(fret[n].take_mm, take[n], 0);
    assert_int_equal(summary.most_taken_fret, 4);
    assert_near(summary.most_taken_mm, 0.10, 0);
    assert_int_equal(summary.least_left_fret, 4);
    assert_near(summary.least_left_mm, 0.58, 1e-15);
    assert_int_equal(summary.too_low_count, 1);
    assert_true(fret[4].too_low && !fret[5].too_low);
    assert_false(fret[3].crown_left_mm.given);
}

static void test_full(void **state)
{
    struct levelling_fret fret[FRETS + 1];
    struct levelling_summary summary;
    (void)state;
    assert_int_equal(levelling_make_plan(LEVELLING_FULL, FRETS, spots, none, 0.6, fret, &summary),
                     STATUS_OK);
    for (int n = 1; n <= FRETS; n++) {
        assert_near(fret[n].take_mm, spots[n] + 0.08, 1e-15);
        assert_false(fret[n].crown_left_mm.given || fret[n].too_low);
    }
    assert_near(fret[5].take_mm, 0, 0);
    assert_int_equal(summary.least_left_fret, 0);
    assert_int_equal(summary.too_low_count, 0);
}

/* Level already: nothing to do under either plan. */
static void test_nothing_to_take(void **state)
{
    const double level[FRETS + 1] = {0};
    struct levelling_fret fret[FRETS + 1];
    struct levelling_summary summary;
    (void)state;
    for (int plan = LEVELLING_SPOTS; plan <= LEVELLING_FULL; plan++) {
        assert_int_equal(
            levelling_make_plan((enum levelling_plan)plan, FRETS, level, crowns, 0, fret, &summary),
            STATUS_OK);
        assert_int_equal(summary.most_taken_fret, 0);
        assert_near(summary.most_taken_mm, 0, 0);
    }
}

/* No fret is raised, none that is high stays so, and the full plan never takes less. */
static void test_never_raises_a_fret(void **state)
{
    struct seeded seed = seeded_start("levelling");
    (void)state;
    for (int round = 0; round < 5000; round++) {
        double spot[25];
        struct maybe crown[25];
        struct levelling_fret high[25], full[25];
        struct levelling_summary summary;
        const int last = seeded_whole(&seed, 1, 24);
        for (int n = 1; n <= last; n++) {
            spot[n] = seeded_between(&seed, -0.3, 0.3);
            crown[n] = maybe_given(seeded_between(&seed, 0, 1.5));
        }
        levelling_make_plan(LEVELLING_SPOTS, last, spot, crown, 0.6, high, &summary);
        assert_int_equal(
            levelling_make_plan(LEVELLING_FULL, last, spot, crown, 0.6, full, &summary), STATUS_OK);
        for (int n = 1; n <= last; n++) {
            assert_true(high[n].take_mm >= 0 && full[n].take_mm >= 0);
            assert_true(spot[n] - high[n].take_mm <= 0);
            assert_near(spot[n] - full[n].take_mm, spot[1] - full[1].take_mm, 1e-15);
            assert_true(full[n].crown_left_mm.value <= crown[n].value);
            assert_true(assert_given(full[n].crown_left_mm) >= summary.least_left_mm);
        }
    }
}

static void test_refusals(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    struct levelling_fret fret[LEVELLING_FRETS_MAX + 1] = {{.take_mm = -77}, {.take_mm = -77}};
    struct levelling_summary summary = {.most_taken_fret = 77};
    (void)state;
    assert_int_equal(levelling_make_plan(LEVELLING_FULL, FRETS, NULL, none, 0.6, fret, &summary),
                     STATUS_ABSENT);
    for (int last = 0; last <= LEVELLING_FRETS_MAX + 1; last += LEVELLING_FRETS_MAX + 1)
        assert_int_equal(
            levelling_make_plan(LEVELLING_FULL, last, spots, crowns, 0.6, fret, &summary),
            STATUS_DOMAIN);
    for (int i = 0; i < 3; i++) {
        double spot[FRETS + 1] = {0};
        struct maybe crown[FRETS + 1] = {{0, false}};
        spot[2] = bad[i];
        assert_int_equal(
            levelling_make_plan(LEVELLING_FULL, FRETS, spot, crown, 0.6, fret, &summary),
            STATUS_DOMAIN);
        spot[2] = 0;
        crown[2] = maybe_given(i == 0 ? -1 : bad[i]);
        assert_int_equal(
            levelling_make_plan(LEVELLING_FULL, FRETS, spot, crown, 0.6, fret, &summary),
            STATUS_DOMAIN);
        assert_int_equal(
            levelling_make_plan(LEVELLING_FULL, FRETS, spot, none, bad[i], fret, &summary),
            STATUS_DOMAIN);
    }
    const double far[3] = {0, 1.7e308, -1.7e308};
    assert_int_equal(levelling_make_plan(LEVELLING_FULL, 2, far, none, 0.6, fret, &summary),
                     STATUS_RANGE);
    assert_true(fret[1].take_mm == -77 && summary.most_taken_fret == 77);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_spots_only),      cmocka_unit_test(test_full),
        cmocka_unit_test(test_nothing_to_take), cmocka_unit_test(test_never_raises_a_fret),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
