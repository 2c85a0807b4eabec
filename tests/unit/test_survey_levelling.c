/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_levelling.h"

#include <math.h>
#include <stdio.h>

#include "near.h"
#include "seeded.h"
#include "survey_record.h"

/* What levelling is (spots off, or all to the lowest): common practice, no published source. */

static struct survey_levelling survey(const char *more, struct findings *findings)
{
    struct survey_levelling levelling;
    struct derived derived;
    struct record record;

    survey_record_derive(&record, more, &derived);
    *findings = (struct findings){.count = 0};
    survey_levelling(place_of(&record, 1, 1), &derived.setup, &derived.lines, &levelling, findings);
    record_done(&record);
    return levelling;
}

static void test_spots(void **state)
{
    struct findings findings;
    const struct survey_levelling levelling = survey("visit.1.pass.1 spot.7 = .002 in\n"
                                                     "visit.1.pass.1 spot.14 = -.001 in\n"
                                                     "visit.1.pass.1 crown.7 = 0.64 mm\n"
                                                     "board crown_height = 1.1 mm",
                                                     &findings);
    const struct levelling_fret *spots = levelling.fret[LEVELLING_SPOTS];
    const struct levelling_fret *full = levelling.fret[LEVELLING_FULL];

    (void)state;
    assert_true(levelling.known);
    for (int n = 1; n <= 19; n++) {
        const double offset = n == 7 ? 0.0508 : n == 14 ? -0.0254 : 0;

        assert_near(spots[n].take_mm, fmax(offset, 0), 1e-12);
        assert_near(full[n].take_mm, offset + 0.0254, 1e-12);
        assert_near(full[n].crown_left_mm.value, (n == 7 ? 0.64 : 1.1) - full[n].take_mm, 1e-12);
    }
    assert_int_equal(levelling.summary[LEVELLING_FULL].most_taken_fret, 7);
    assert_int_equal(levelling.summary[LEVELLING_FULL].least_left_fret, 7);
    /* 0.64 - 0.0508 is under the 0.6 mm that still plays well (memory). */
    assert_true(spots[7].too_low && full[7].too_low);
    assert_true(survey_record_found(&findings, FINDING_CROWN_LOW, 7));
    /* A thousandth's step: 2 x 0.0254/sqrt(12) for one reading (GUM 4.3.7), and for the
     * difference of two sqrt(2) times that. */
    assert_near(levelling.take_u_mm[LEVELLING_SPOTS], 2 * 0.0254 / sqrt(12), 1e-12);
    assert_near(levelling.take_u_mm[LEVELLING_FULL], 2 * 0.0254 / sqrt(6), 1e-12);
}

static void test_enough_crown(void **state)
{
    struct findings findings;
    const struct survey_levelling levelling = survey("visit.1.pass.1 spot.7 = .002 in\n"
                                                     "visit.1.pass.1 crown.9 = 0.7 mm",
                                                     &findings);

    (void)state;
    assert_true(levelling.known);
    assert_int_equal(findings.count, 0);
    /* Only one crown is known. */
    assert_true(levelling.fret[LEVELLING_SPOTS][9].crown_left_mm.given);
    assert_false(levelling.fret[LEVELLING_SPOTS][7].crown_left_mm.given);
    assert_int_equal(levelling.summary[LEVELLING_SPOTS].least_left_fret, 9);
}

/* One relief reading is met by the curve, and says nothing about single crowns. */
static void test_nothing_to_level_by(void **state)
{
    struct findings findings;

    (void)state;
    assert_false(survey("", &findings).known);
    assert_int_equal(findings.count, 0);
}

/* Reliefs that lie on one curve leave nothing; one that reads less has a crown standing up. */
static void test_reliefs_tell(void **state)
{
    struct survey_levelling levelling;
    struct findings findings = {.count = 0};
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "", &derived);
    const double on_curve =
        -neck_curve_height_mm(&derived.lines.curve_now, &derived.setup.board, LANE_MIDDLE, 4);
    build_record_put_mm(&record, reading_key_pass_at(FIELD_RELIEF_AT, 1, 1, 0, 4), on_curve);
    derive_current(&record, &derived);
    survey_levelling(place_of(&record, 1, 1), &derived.setup, &derived.lines, &levelling,
                     &findings);
    assert_true(levelling.known);
    for (int n = 1; n <= 19; n++)
        assert_near(levelling.fret[LEVELLING_FULL][n].take_mm, 0, 0);
    assert_near(levelling.take_u_mm[LEVELLING_SPOTS], 0, 0);

    build_record_put_mm(&record, reading_key_pass_at(FIELD_RELIEF_AT, 1, 1, 0, 4), on_curve - 0.05);
    derive_current(&record, &derived);
    survey_levelling(place_of(&record, 1, 1), &derived.setup, &derived.lines, &levelling,
                     &findings);
    assert_true(levelling.fret[LEVELLING_SPOTS][4].take_mm > 0.02);
    assert_near(levelling.fret[LEVELLING_SPOTS][4].take_mm, derived.lines.curve_now.offset_mm[4],
                0);
    record_done(&record);
}

static void test_properties(void **state)
{
    struct seeded seeded = seeded_start("survey_levelling");

    (void)state;
    for (int round = 0; round < 40; round++) {
        struct findings findings;
        char lines[1200];
        struct strbuf text = strbuf_over(lines, sizeof lines);

        strbuf_add(&text, "board crown_height = 1 mm\n");
        for (int n = 1; n <= 19; n += seeded_whole(&seeded, 1, 4)) {
            char line[60];

            snprintf(line, sizeof line, "visit.1.pass.1 spot.%d = %.4f mm\n", n,
                     seeded_between(&seeded, -0.1, 0.1));
            strbuf_add(&text, line);
        }
        const struct survey_levelling levelling = survey(lines, &findings);
        double least = 1;
        assert_true(levelling.known);
        for (int n = 1; n <= 19; n++) {
            const struct levelling_fret *spots = &levelling.fret[LEVELLING_SPOTS][n];
            const struct levelling_fret *full = &levelling.fret[LEVELLING_FULL][n];

            /* The full plan never takes less, and no crown grows. */
            assert_true(full->take_mm >= spots->take_mm && spots->take_mm >= 0);
            assert_near(full->take_mm + full->crown_left_mm.value, 1, 1e-12);
            least = fmin(least, full->take_mm);
        }
        assert_near(least, 0, 0);
    }
}

static void test_no_board(void **state)
{
    struct survey_levelling levelling = {.known = true};
    struct findings findings = {.count = 0};
    struct derived derived;
    struct record record;

    (void)state;
    build_record(&record, "visit.1.pass.1 spot.7 = .002 in");
    derive_current(&record, &derived);
    survey_levelling(place_of(&record, 1, 1), &derived.setup, &derived.lines, &levelling,
                     &findings);
    assert_false(levelling.known);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_spots),
        cmocka_unit_test(test_enough_crown),
        cmocka_unit_test(test_nothing_to_level_by),
        cmocka_unit_test(test_reliefs_tell),
        cmocka_unit_test(test_properties),
        cmocka_unit_test(test_no_board),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
