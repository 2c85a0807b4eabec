/* SPDX-License-Identifier: MIT */
#include "model/frets/layout.h"

#include <math.h>

#include "near.h"
#include "seeded.h"

enum { STRINGS = 6 };

/* A steel-string set, treble first, mm. */
static const double gauges[STRINGS] = {0.3048, 0.4064, 0.6096, 0.8128, 1.0668, 1.3462};

static void list_stations(double scale_mm, double *x_mm)
{
    for (int n = 0; n <= 24; n++)
        x_mm[n] = scale_mm * (1 - pow(2, -n / 12.0));
}

/* The rule of 17.817: every fret space is the rest of the string over 17.817 (G. Byers,
 * "Classical guitar intonation", American Lutherie 47, 1996; read). */
static void test_fret_table(void **state)
{
    double x_mm[25];
    struct layout_fret fret[25];
    (void)state;
    list_stations(650, x_mm);
    assert_int_equal(layout_list_frets(24, x_mm, fret), STATUS_OK);
    assert_near(fret[12].from_nut_mm, 325, 1e-12);
    for (int n = 1; n <= 24; n++) {
        const double rest_mm = 650 - x_mm[n - 1];
        assert_near(rest_mm / fret[n].from_previous_mm, 17.817, 0.0005);
        assert_near(fret[n].dot_mm - x_mm[n - 1], x_mm[n] - fret[n].dot_mm, 1e-12);
    }
    assert_near(fret[0].from_previous_mm, 0, 0);
}

static double edge_gap_mm(const double *centre_mm, int i)
{
    return centre_mm[i] - centre_mm[i + 1] - (gauges[i] + gauges[i + 1]) / 2;
}

static void test_equal_gaps(void **state)
{
    double centre[STRINGS];
    (void)state;
    assert_int_equal(layout_spread_nut(45, 3.2, 2.8, LAYOUT_EQUAL_GAPS, STRINGS, gauges, centre),
                     STATUS_OK);
    for (int i = 0; i < STRINGS - 1; i++)
        assert_near(edge_gap_mm(centre, i), edge_gap_mm(centre, 0), 1e-13);
    assert_near(centre[5] - gauges[5] / 2, 3.2, 1e-14);
    assert_near(45 - (centre[0] + gauges[0] / 2), 2.8, 1e-13);
}

static void test_equal_centres(void **state)
{
    double centre[STRINGS];
    (void)state;
    assert_int_equal(layout_spread_nut(45, 3.2, 2.8, LAYOUT_EQUAL_CENTRES, STRINGS, gauges, centre),
                     STATUS_OK);
    for (int i = 0; i < STRINGS - 1; i++)
        assert_near(centre[i] - centre[i + 1], (centre[0] - centre[5]) / 5, 1e-13);
    assert_near(centre[5] - gauges[5] / 2, 3.2, 1e-14);
    assert_near(45 - (centre[0] + gauges[0] / 2), 2.8, 1e-13);
}

static void test_saddle_spread(void **state)
{
    double centre[STRINGS];
    (void)state;
    for (int rule = LAYOUT_EQUAL_GAPS; rule <= LAYOUT_EQUAL_CENTRES; rule++) {
        assert_int_equal(layout_spread_saddle(55, (enum layout_rule)rule, STRINGS, gauges, centre),
                         STATUS_OK);
        assert_near(centre[5], 0, 0);
        assert_near(centre[0], 55, 0);
    }
    assert_near(centre[3], 22, 1e-13);
}

static void test_single_string(void **state)
{
    double centre = -77;
    (void)state;
    assert_int_equal(layout_spread_nut(20, 4, 6, LAYOUT_EQUAL_GAPS, 1, gauges, &centre), STATUS_OK);
    assert_near(centre, 9, 1e-14);
    assert_int_equal(layout_spread_nut(10, 4, 6, LAYOUT_EQUAL_GAPS, 1, gauges, &centre),
                     STATUS_RANGE);
    assert_int_equal(layout_spread_saddle(10, LAYOUT_EQUAL_GAPS, 1, gauges, &centre),
                     STATUS_DOMAIN);
    assert_near(centre, 9, 1e-14);
}

static void check_random_spread(struct seeded *seed, enum layout_rule rule)
{
    double gauge[12], centre[12], gap_least = (double)INFINITY, gap_most = 0;
    const int strings = seeded_whole(seed, 2, 12);
    const double width = seeded_between(seed, 60, 90);
    for (int i = 0; i < strings; i++)
        gauge[i] = seeded_between(seed, 0.2, 3);
    assert_int_equal(layout_spread_nut(width, seeded_between(seed, 0, 5),
                                       seeded_between(seed, 0, 5), rule, strings, gauge, centre),
                     STATUS_OK);
    for (int i = 0; i < strings - 1; i++) {
        const double gap = centre[i] - centre[i + 1] - (gauge[i] + gauge[i + 1]) / 2;
        gap_least = fmin(gap_least, gap);
        gap_most = fmax(gap_most, gap);
    }
    assert_true(gap_least > 0);
    assert_true(centre[strings - 1] >= gauge[strings - 1] / 2);
    assert_true(centre[0] <= width - gauge[0] / 2 + 1e-12);
    if (rule == LAYOUT_EQUAL_GAPS)
        assert_near(gap_most, gap_least, 1e-12);
}

static void test_spread_of_any_set(void **state)
{
    struct seeded seed = seeded_start("layout");
    (void)state;
    for (int round = 0; round < 2000; round++) {
        check_random_spread(&seed, LAYOUT_EQUAL_GAPS);
        check_random_spread(&seed, LAYOUT_EQUAL_CENTRES);
    }
}

static void test_no_room(void **state)
{
    double centre[STRINGS] = {-77};
    (void)state;
    assert_int_equal(layout_spread_nut(10, 3, 3, LAYOUT_EQUAL_GAPS, STRINGS, gauges, centre),
                     STATUS_RANGE);
    /* Centres can be apart on the mean and yet two thick neighbours touch. */
    const double thick[3] = {0.2, 3, 3};
    assert_int_equal(layout_spread_saddle(4, LAYOUT_EQUAL_CENTRES, 3, thick, centre), STATUS_RANGE);
    assert_true(centre[0] == -77);
}

static void test_refusals(void **state)
{
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, -1};
    double centre[STRINGS] = {-77};
    struct layout_fret fret[25] = {{.dot_mm = -77}};
    double x_mm[25];
    (void)state;
    list_stations(650, x_mm);
    for (int i = 0; i < 4; i++) {
        double gauge[STRINGS] = {1, 1, bad[i], 1, 1, 1};
        for (int rule = 0; rule < 2; rule++) {
            const enum layout_rule r = (enum layout_rule)rule;
            assert_int_equal(layout_spread_nut(bad[i], 3, 3, r, STRINGS, gauges, centre),
                             STATUS_DOMAIN);
            assert_int_equal(layout_spread_nut(45, bad[i], 3, r, STRINGS, gauges, centre),
                             STATUS_DOMAIN);
            assert_int_equal(layout_spread_nut(45, 3, bad[i], r, STRINGS, gauges, centre),
                             STATUS_DOMAIN);
            assert_int_equal(layout_spread_nut(45, 3, 3, r, STRINGS, gauge, centre), STATUS_DOMAIN);
            assert_int_equal(layout_spread_saddle(bad[i], r, STRINGS, gauges, centre),
                             STATUS_DOMAIN);
        }
        x_mm[3] = bad[i];
        assert_int_equal(layout_list_frets(24, x_mm, fret), STATUS_DOMAIN);
    }
    assert_int_equal(layout_list_frets(24, NULL, fret), STATUS_ABSENT);
    list_stations(650, x_mm);
    assert_int_equal(layout_list_frets(0, x_mm, fret), STATUS_DOMAIN);
    assert_int_equal(layout_list_frets(LAYOUT_FRETS_MAX + 1, x_mm, fret), STATUS_DOMAIN);
    assert_int_equal(layout_spread_nut(45, 3, 3, LAYOUT_EQUAL_GAPS, 0, gauges, centre),
                     STATUS_DOMAIN);
    assert_int_equal(layout_spread_nut(45, 3, 3, LAYOUT_EQUAL_GAPS, 6, NULL, centre),
                     STATUS_ABSENT);
    assert_true(centre[0] == -77 && fret[0].dot_mm == -77);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fret_table),    cmocka_unit_test(test_equal_gaps),
        cmocka_unit_test(test_equal_centres), cmocka_unit_test(test_saddle_spread),
        cmocka_unit_test(test_single_string), cmocka_unit_test(test_spread_of_any_set),
        cmocka_unit_test(test_no_room),       cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
