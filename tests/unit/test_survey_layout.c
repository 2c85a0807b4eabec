/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_layout.h"

#include <math.h>

#include "near.h"
#include "survey_record.h"

static struct survey_layout survey(const char *more)
{
    struct survey_layout layout;
    struct derived derived;
    struct record record;

    survey_record_derive(&record, more, &derived);
    survey_layout(&record, &derived, &layout);
    record_done(&record);
    return layout;
}

static const char nut[] = "nut width = 44 mm\n"
                          "nut margin_bass = 3.5 mm\n"
                          "nut margin_treble = 3 mm\n"
                          "bridge spread = 54 mm\n";

/* Twelve-tone equal temperament: fret 12 halves the scale, fret 5 leaves 2^(-5/12). */
static void test_frets(void **state)
{
    const struct survey_layout layout = survey("");
    const double scale = 24.9 * 25.4;

    (void)state;
    assert_true(layout.known);
    assert_false(layout.multi_scale);
    assert_int_equal(layout.frets, 19);
    assert_near(layout.middle[12].from_nut_mm, scale / 2, 1e-9);
    assert_near(layout.middle[5].from_nut_mm, scale * (1 - pow(2, -5.0 / 12)), 1e-9);
    assert_near(layout.string[4].fret[12].from_nut_mm, scale / 2, 1e-9);
    for (int n = 1; n <= 19; n++)
        assert_near(layout.middle[n].dot_mm,
                    (layout.middle[n - 1].from_nut_mm + layout.middle[n].from_nut_mm) / 2, 1e-9);
}

/* 3 5 7 9 12 and the same an octave up (common practice, no published source). */
static void test_dots(void **state)
{
    int dots = 0;

    (void)state;
    for (int n = 0; n <= FRETS_MAX; n++)
        dots += survey_layout_has_dot(n);
    assert_int_equal(dots, 10);
    for (int n = 3; n <= 12; n++)
        assert_int_equal(survey_layout_has_dot(n), survey_layout_has_dot(n + 12));
    assert_false(survey_layout_has_dot(0) || survey_layout_has_dot(1) || survey_layout_has_dot(10));
    assert_true(survey_layout_has_dot(12));
}

static void test_multi_scale(void **state)
{
    struct survey_layout layout;
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_build(&record, "board scale_treble = 25.5 in\nboard scale_bass = 27 in");
    build_record_drop(&record, "board scale");
    derive_current(&record, &derived);
    survey_layout(&record, &derived, &layout);
    assert_true(layout.multi_scale);
    assert_near(layout.string[1].fret[12].from_nut_mm, 12.75 * 25.4, 1e-9);
    assert_near(layout.string[6].fret[12].from_nut_mm, 13.5 * 25.4, 1e-9);
    assert_near(layout.middle[12].from_nut_mm, 13.125 * 25.4, 1e-9);
    record_done(&record);
}

/* Equal gaps: margins, gauges and five gaps make up the width. */
static void test_equal_gaps(void **state)
{
    static const double gauge_mm[] = {0, 0.3048, 0.4064, 0.6096, 0.8128, 1.0668, 1.3462};
    char memory[300];
    struct strbuf lines = STRBUF(memory);
    double gauges = 0;

    (void)state;
    strbuf_add(&lines, nut);
    strbuf_add(&lines, "nut spread = equal-gaps");
    const struct survey_layout layout = survey(memory);
    for (int s = 1; s <= 6; s++)
        gauges += gauge_mm[s];
    const double gap = (44 - 3.5 - 3 - gauges) / 5;
    assert_near(layout.string[6].nut_centre_mm.value, 3.5 + gauge_mm[6] / 2, 1e-9);
    assert_near(layout.string[1].nut_centre_mm.value, 44 - 3 - gauge_mm[1] / 2, 1e-9);
    for (int s = 1; s < 6; s++)
        assert_near(layout.string[s].nut_centre_mm.value -
                        layout.string[s + 1].nut_centre_mm.value -
                        (gauge_mm[s] + gauge_mm[s + 1]) / 2,
                    gap, 1e-9);
    assert_near(layout.string[6].saddle_centre_mm.value, 0, 0);
    assert_near(layout.string[1].saddle_centre_mm.value, 54, 1e-9);
}

static void test_equal_centres(void **state)
{
    char memory[300];
    struct strbuf lines = STRBUF(memory);

    (void)state;
    strbuf_add(&lines, nut);
    strbuf_add(&lines, "nut spread = equal-centres");
    const struct survey_layout layout = survey(memory);
    for (int s = 1; s <= 6; s++)
        assert_near(layout.string[s].saddle_centre_mm.value, 54 * (6 - s) / 5.0, 1e-9);
    const double step = layout.string[5].nut_centre_mm.value - layout.string[6].nut_centre_mm.value;
    for (int s = 1; s < 6; s++)
        assert_near(layout.string[s].nut_centre_mm.value - layout.string[s + 1].nut_centre_mm.value,
                    step, 1e-9);
}

/* The lowest of six starts at fret 5 and has no slot: the other five share the nut's width. Its
 * line goes on beside them, and is as far from string 5 as that is from string 4. */
static void test_short_string(void **state)
{
    static const double gauge_mm[] = {0, 0.3048, 0.4064, 0.6096, 0.8128, 1.0668};
    char memory[300];
    struct strbuf lines = STRBUF(memory);
    double gauges = 0;

    (void)state;
    strbuf_add(&lines, nut);
    strbuf_add(&lines, "nut spread = equal-gaps\nstring.6 from_fret = 5");
    const struct survey_layout layout = survey(memory);
    for (int s = 1; s <= 5; s++)
        gauges += gauge_mm[s];
    const double gap = (44 - 3.5 - 3 - gauges) / 4;
    assert_near(layout.string[5].nut_centre_mm.value, 3.5 + gauge_mm[5] / 2, 1e-9);
    assert_near(layout.string[4].nut_centre_mm.value, 3.5 + gauge_mm[5] + gap + gauge_mm[4] / 2,
                1e-9);
    assert_near(layout.string[1].nut_centre_mm.value, 44 - 3 - gauge_mm[1] / 2, 1e-9);
    assert_false(layout.string[6].nut_centre_mm.given);
    assert_near(layout.string[5].nut_centre_mm.value - assert_given(layout.string[6].nut_line_mm),
                layout.string[4].nut_centre_mm.value - layout.string[5].nut_centre_mm.value, 1e-9);
    assert_near(layout.string[6].saddle_centre_mm.value, 0, 0);
}

/* Without the rule, a margin or a gauge nothing is laid out; the board's width stands in for
 * the nut's. */
static void test_spread_absent(void **state)
{
    struct survey_layout layout = survey(nut);

    (void)state;
    assert_false(layout.string[1].nut_centre_mm.given || layout.string[1].saddle_centre_mm.given);
    layout = survey("nut spread = equal-gaps\nnut width = 44 mm\nnut margin_bass = 3 mm");
    assert_false(layout.string[1].nut_centre_mm.given || layout.string[1].saddle_centre_mm.given);
    layout = survey("nut spread = equal-gaps\nboard width_nut = 44 mm\nnut margin_bass = 3 mm\n"
                    "nut margin_treble = 3 mm");
    assert_true(layout.string[1].nut_centre_mm.given);
    assert_false(layout.string[1].saddle_centre_mm.given);
    /* Strings that would touch. */
    layout = survey("nut spread = equal-gaps\nnut width = 11 mm\nnut margin_bass = 4 mm\n"
                    "nut margin_treble = 4 mm");
    assert_false(layout.string[1].nut_centre_mm.given);

    struct derived derived;
    struct record record;
    survey_record_build(&record, nut);
    build_record_add(&record, "nut spread = equal-gaps");
    build_record_drop(&record, "string.3 gauge");
    derive_current(&record, &derived);
    survey_layout(&record, &derived, &layout);
    assert_true(layout.known);
    assert_false(layout.string[1].nut_centre_mm.given || layout.string[1].saddle_centre_mm.given);
    record_done(&record);
}

static void test_ends(void **state)
{
    struct survey_layout layout;
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record,
                         "visit.1.pass.1 cents.1.12 = 4\n"
                         "visit.1.pass.1 cents.6.5 = 3\nvisit.1.pass.1 cents.6.12 = 9",
                         &derived);
    survey_layout(&record, &derived, &layout);
    const double scale = 24.9 * 25.4;
    assert_near(layout.string[1].contact_mm, scale + 1.5, 1e-9);
    double value = assert_given(figures_get(&derived.figures, FIGURE_SETBACK_PREDICTED, 1));
    assert_near(layout.string[1].contact_predicted_mm.value, scale + value, 1e-9);
    value = assert_given(figures_get(&derived.figures, FIGURE_NUT_ADVANCE_BEST, 1));
    assert_near(layout.string[1].nut_front_best_mm.value, value, 1e-12);
    /* 4 cents sharp at 12: back by about .015 in a cent on 25.5 in (common practice). */
    assert_near(layout.string[1].contact_read_mm.value - layout.string[1].contact_mm,
                4 * 0.015 * 25.4 * 24.9 / 25.5, 0.08);
    assert_true(layout.string[1].contact_read_u_mm.value > 0);
    assert_false(layout.string[1].contact_fit_mm.given);
    assert_true(layout.string[6].contact_fit_mm.given && layout.string[6].nut_front_fit_mm.given);
    assert_false(layout.string[6].contact_read_mm.given ||
                 layout.string[6].contact_read_u_mm.given);
    assert_false(layout.string[2].contact_read_mm.given || layout.string[2].contact_fit_mm.given);
    record_done(&record);
}

static void test_no_board(void **state)
{
    struct survey_layout layout = {.known = true};
    struct derived derived;
    struct record record;

    (void)state;
    build_record(&record, "board scale = 25.5 in");
    derive_current(&record, &derived);
    survey_layout(&record, &derived, &layout);
    assert_false(layout.known);
    record_done(&record);
    /* A board without frets still has its strings. */
    build_record(&record, "board scale = 25.5 in\nboard strings = 4\nboard frets = 0");
    derive_current(&record, &derived);
    survey_layout(&record, &derived, &layout);
    assert_true(layout.known);
    assert_int_equal(layout.frets, 0);
    assert_near(layout.string[2].contact_mm, 25.5 * 25.4, 1e-9);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_frets),         cmocka_unit_test(test_dots),
        cmocka_unit_test(test_multi_scale),   cmocka_unit_test(test_short_string),
        cmocka_unit_test(test_equal_gaps),    cmocka_unit_test(test_equal_centres),
        cmocka_unit_test(test_spread_absent), cmocka_unit_test(test_ends),
        cmocka_unit_test(test_no_board),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
