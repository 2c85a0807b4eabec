/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"

/* What is derived for strings, neck and climate, and the findings. */

static const char string_lines[] = "string.1 note = E4\nstring.1 gauge = .012 in\n"
                                   "string.1 build = plain\n";

static struct derived derive_with(const char *more)
{
    struct derived derived;
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    record_done(&record);
    return derived;
}

static bool has(const struct derived *derived, enum finding_id id, int number)
{
    for (int i = 0; i < derived->findings.count; i++)
        if (derived->findings.list[i].id == id && derived->findings.list[i].number == number)
            return true;
    return false;
}

static double figure(const struct derived *derived, enum figure_id id, int string)
{
    return maybe_or(figures_get(&derived->figures, id, string), (double)NAN);
}

/* A string that is tuned up a fourth nears its strength; STRESS_SHARE_MAX is common practice. */
static void test_string_near_its_strength(void **state)
{
    (void)state;
    const struct derived slack = derive_with(string_lines);
    const struct derived tight = derive_with("string.1 note = A4\nstring.1 gauge = .012 in\n"
                                             "string.1 build = plain\n");

    assert_true(figure(&slack, FIGURE_STRESS_SHARE, 1) < STRESS_SHARE_MAX);
    assert_false(has(&slack, FINDING_STRING_NEAR_BREAK, 1));
    assert_true(figure(&tight, FIGURE_STRESS_SHARE, 1) > STRESS_SHARE_MAX);
    assert_true(has(&tight, FINDING_STRING_NEAR_BREAK, 1));
    /* A fourth up is 2^(5/12): the pull goes with the square of the pitch. */
    assert_near_relative(figure(&tight, FIGURE_TENSION, 1),
                         figure(&slack, FIGURE_TENSION, 1) * exp2(10 / 12.0), 1e-12);
}

/* The pull of all strings is not known before each one's is. */
static void test_total_needs_every_string(void **state)
{
    (void)state;
    const struct derived one = derive_with(string_lines);
    const struct derived all = derive_with("board strings = 1\nstring.1 note = E4\n"
                                           "string.1 mass = .57 g/m\n");

    assert_true(isnan(figure(&one, FIGURE_TENSION_TOTAL, 0)));
    assert_near_relative(figure(&all, FIGURE_TENSION_TOTAL, 0), figure(&all, FIGURE_TENSION, 1),
                         1e-15);
    assert_int_equal(all.string[1].mass.origin, MASS_ENTERED);
}

/* The open string's headroom is geometry; a fretted one needs its tension. */
static void test_open_note_needs_no_string(void **state)
{
    (void)state;
    const struct derived bare = derive_with("");
    const struct derived strung = derive_with(string_lines);

    assert_false(bare.clearance[1].headroom_mm[1].given);
    assert_false(bare.pitch[1].cents[1].given);
    assert_true(strung.clearance[1].headroom_mm[1].given && strung.pitch[1].cents[1].given);
    assert_near_relative(assert_given(strung.clearance[1].headroom_mm[0]),
                         assert_given(bare.clearance[1].headroom_mm[0]), 1e-12);
}

/* Nylon tells no pitch without its modulus, but all its notes' headroom: pressing hardly adds to
 * its pull. A modulus that is entered makes no difference to that, and gives the pitch. */
static void test_nylon_is_judged_at_every_fret(void **state)
{
    static const char nylon[] = "string.1 note = E4\nstring.1 gauge = .028 in\n"
                                "string.1 build = nylon\n"
                                "string.6 note = E2\nstring.6 gauge = .043 in\n"
                                "string.6 build = nylon-wound\nstring.6 mass = 5.43 g/m\n";
    char lines[400];

    (void)state;
    snprintf(lines, sizeof lines, "%sstring.1 modulus = 3000 MPa\n", nylon);
    const struct derived rough = derive_with(nylon), stiff = derive_with(lines);

    for (int n = 1; n < rough.setup.board.frets; n++) {
        const double headroom = assert_given(rough.clearance[1].headroom_mm[n]);
        const double rise = assert_given(rough.pitch[1].rise_n[n]);

        assert_false(rough.pitch[1].cents[n].given);
        assert_true(stiff.pitch[1].cents[n].given);
        assert_true(rise > 0 && rise < 0.01 * assert_given(rough.string[1].tension_n));
        assert_near_relative(assert_given(stiff.clearance[1].headroom_mm[n]), headroom, 0.03);
        assert_true(rough.clearance[6].headroom_mm[n].given);
    }
}

static void test_one_reading_or_a_fit(void **state)
{
    (void)state;
    const struct derived one = derive_with("visit.1.pass.1 cents.1.12 = 4\n");
    const struct derived two = derive_with("visit.1.pass.1 cents.1.12 = 4\n"
                                           "visit.1.pass.1 cents.1.5 = 1\n");
    const struct derived beyond = derive_with("visit.1.pass.1 cents.1.12 = 4\n"
                                              "visit.1.pass.1 cents.1.30 = 1\n");

    assert_true(figure(&one, FIGURE_SETBACK_CHANGE, 1) > 0);
    assert_true(isnan(figure(&one, FIGURE_SETBACK_FIT, 1)));
    assert_true(isnan(figure(&two, FIGURE_SETBACK_CHANGE, 1)));
    assert_near(figure(&two, FIGURE_CENTS_LEFT_RMS, 1), 0, 1e-9);
    assert_true(two.figures.at[FIGURE_SETBACK_FIT][1].u > 0);
    /* A fret that the board lacks does not count. */
    assert_near_relative(figure(&beyond, FIGURE_SETBACK_CHANGE, 1),
                         figure(&one, FIGURE_SETBACK_CHANGE, 1), 1e-15);
}

static void test_wood_and_tenon(void **state)
{
    (void)state;
    static const char neck[] = "neck shaft_first = 14 mm\nneck shaft_heel = 16 mm\n"
                               "neck slot_depth = 11 mm\nneck recut_depth = 11.5 mm\n"
                               "neck wood = mahogany\nneck tenon_edge = 7 mm\n"
                               "neck tenon_thickness = 25 mm\nneck bolt_diameter = 6 mm\n"
                               "neck bolt_torque = 5 Nm\n";
    const struct derived derived = derive_with(neck);

    assert_near(figure(&derived, FIGURE_WOOD_LEFT, 0), 3, 0);
    assert_false(has(&derived, FINDING_WOOD_THIN, 0));
    assert_true(has(&derived, FINDING_WOOD_THIN_RECUT, 0));
    /* 2 x 7 x 25 x 8.5 N/mm2 over 5000 N mm/(0.2 x 6 mm). */
    assert_near_relative(figure(&derived, FIGURE_TENON_SAFETY, 0), 2975.0 / (5000 / 1.2), 1e-12);
    assert_true(has(&derived, FINDING_TENON_WEAK, 0));
}

/* The state is of the last visit with a pass, the climate of the last visit. */
static void test_climate_of_the_last_visit(void **state)
{
    (void)state;
    const struct derived derived =
        derive_with("visit.1 humidity = 30\nvisit.1 temperature = 70 F\n"
                    "visit.2 humidity = 65\nvisit.2 temperature = 70 F\n");

    /* Wood Handbook, FPL-GTR-282, table 4-2: 70 F and 65 % give 12.0 %. */
    assert_near(figure(&derived, FIGURE_EMC, 0), 12.0, 0.06);
    assert_true(isfinite(figure(&derived, FIGURE_RELIEF, 0)));
}

/* The gap that names its fret counts where both name the same. */
static void test_relief_named_twice(void **state)
{
    (void)state;
    const struct derived named = derive_with("visit.1.pass.1 relief.6 = .020 in\n");

    assert_near_relative(figure(&named, FIGURE_RELIEF, 0), 0.508, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_string_near_its_strength),
        cmocka_unit_test(test_total_needs_every_string),
        cmocka_unit_test(test_open_note_needs_no_string),
        cmocka_unit_test(test_nylon_is_judged_at_every_fret),
        cmocka_unit_test(test_one_reading_or_a_fit),
        cmocka_unit_test(test_wood_and_tenon),
        cmocka_unit_test(test_climate_of_the_last_visit),
        cmocka_unit_test(test_relief_named_twice),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
