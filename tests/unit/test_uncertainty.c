/* SPDX-License-Identifier: MIT */
#include "model/setup/uncertainty.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "course_record.h"
#include "model/derive/derive.h"
#include "near.h"
#include "seeded.h"

/*
 * Readings drawn at random, uniformly over one step around what was entered, with the moves
 * held as chosen: twice the standard deviation of every figure must be the expanded
 * uncertainty that the model gives. With 20 000 draws the spread itself is known to about
 * half a per cent, so 4 % is a wide margin, yet a wrong term shows.
 */
enum { DRAWS = 20000 };

struct spread {
    double sum[FIGURE_COUNT_][STRINGS_MAX + 1];
    double squares[FIGURE_COUNT_][STRINGS_MAX + 1];
};

static bool is_setup_figure(int id)
{
    const enum figure_section section = figure_info((enum figure_id)id)->section;

    if (section == FIGURE_SECTION_STRING)
        return id <= FIGURE_SADDLE_CHANGE || (id >= FIGURE_SADDLE_TURNS && id <= FIGURE_SADDLE_TOP);
    return section == FIGURE_SECTION_NECK_CURVE || section == FIGURE_SECTION_RESET;
}

/* A reading that is there, somewhere within its step. */
static void draw(struct seeded *seed, struct maybe *reading, double step)
{
    if (reading->given)
        reading->value += seeded_between(seed, -step / 2, step / 2);
}

/* Spelled out reading by reading, not by the walk of the code under test. */
static void draw_readings(struct seeded *seed, const struct setup *middle, struct setup *drawn)
{
    const double feeler = middle->feeler_step_mm, rule = middle->rule_step_mm;

    *drawn = *middle;
    for (int i = 0; i < drawn->relief_count; i++)
        drawn->relief[i].gap_mm += seeded_between(seed, -feeler / 2, feeler / 2);
    for (int n = 1; n <= FRETS_MAX; n++)
        draw(seed, &drawn->spot_mm[n], feeler);
    draw(seed, &drawn->fall_away_mm, feeler);
    for (int s = 1; s <= STRINGS_MAX; s++) {
        draw(seed, &drawn->nut_gap_mm[s], feeler);
        draw(seed, &drawn->action_mm[s], rule);
    }
    draw(seed, &drawn->exposure_bass_mm, rule);
    draw(seed, &drawn->exposure_treble_mm, rule);
}

/* Deviations from the nominal figures, so that the squares lose nothing. */
static void gather(const struct derived *derived, const struct figures *figures,
                   struct spread *spread)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            if (derived->figures.at[id][s].known == KNOWN_ABSENT)
                continue;
            const double off = figures->at[id][s].value - derived->figures.at[id][s].value;

            spread->sum[id][s] += off;
            spread->squares[id][s] += off * off;
        }
}

static int check_spread(const struct derived *derived, const struct spread *spread)
{
    int checked = 0;

    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *figure = &derived->figures.at[id][s];

            if (!is_setup_figure(id) || figure->known == KNOWN_ABSENT)
                continue;
            const double mean = spread->sum[id][s] / DRAWS;
            const double sd = sqrt(fmax(spread->squares[id][s] / DRAWS - mean * mean, 0));
            if (!near_is(2 * sd, figure->u, 0.04 * figure->u + 1e-12))
                fail_msg("%s, string %d: u %.6g, drawn %.6g", figure_info((enum figure_id)id)->name,
                         s, figure->u, 2 * sd);
            checked += figure->u > 0;
        }
    return checked;
}

/* Checks every known figure of the record's state; returns how many had a spread. */
static int check_record(struct seeded *seed, const struct record *record)
{
    static struct spread spread;
    struct derived derived;
    struct setup drawn;
    struct figures figures;

    memset(&spread, 0, sizeof spread);
    memset(&figures, 0, sizeof figures);
    derive_current(record, &derived);
    for (int i = 0; i < DRAWS; i++) {
        draw_readings(seed, &derived.setup, &drawn);
        moves_solve(&drawn, &derived.choice, &figures, NULL, NULL);
        reset_solve(&drawn, &figures);
        gather(&derived, &figures, &spread);
    }
    return check_spread(&derived, &spread);
}

static void check_lines(const char *name, const char *more, int at_least)
{
    struct seeded seed = seeded_start(name);
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, more);
    assert_true(check_record(&seed, &record) >= at_least);
    record_done(&record);
}

static void test_single_scale(void **state)
{
    (void)state;
    check_lines("single scale, screws", "", 6 * 10);
}

static void test_multi_scale(void **state)
{
    (void)state;
    check_lines("multi-scale",
                "board scale_treble = 25 in\nboard scale_bass = 27.5 in\n"
                "visit.1.pass.1 relief.4 = .010 in\nvisit.1.pass.1 relief.8 = .009 in",
                6 * 10);
}

static void test_held(void **state)
{
    (void)state;
    check_lines("held on 3",
                "visit.1.pass.1 nut_method = held-3\nvisit.1.pass.1 nut_gap.1 = .010 in\n"
                "visit.1.pass.1 nut_gap.2 = .010 in\nvisit.1.pass.1 nut_gap.3 = .011 in\n"
                "visit.1.pass.1 nut_gap.4 = .011 in\nvisit.1.pass.1 nut_gap.5 = .012 in\n"
                "visit.1.pass.1 nut_gap.6 = .012 in",
                6 * 10);
}

static void test_outer_two_only(void **state)
{
    struct seeded seed = seeded_start("outer two only");
    struct record record;
    char line[64];

    (void)state;
    build_record(&record, build_record_full);
    for (int s = 2; s <= 5; s++) {
        snprintf(line, sizeof line, "visit.1.pass.1 nut_gap.%d", s);
        build_record_drop(&record, line);
        snprintf(line, sizeof line, "visit.1.pass.1 action.%d", s);
        build_record_drop(&record, line);
    }
    assert_true(check_record(&seed, &record) >= 6 * 10);
    record_done(&record);
}

/* Twelve strings read by their six courses, on a blank: away from the kink, course 4 alone decides.
 */
static void test_by_course(void **state)
{
    struct seeded seed = seeded_start("by course");
    struct record record;

    (void)state;
    build_record(&record, course_record);
    build_record_add(&record, "visit.1.pass.1 action.7 = 5/64 in");
    assert_true(check_record(&seed, &record) >= 12 * 10);
    record_done(&record);
}

/* A string from fret 5 on, whose gap is taken from its neighbour, or read over fret 6. */
static void test_short_string(void **state)
{
    struct seeded seed = seeded_start("short string");
    struct record record;

    (void)state;
    check_lines("short string, its gap read", "string.6 from_fret = 5", 6 * 10);
    build_record(&record, build_record_full);
    build_record_add(&record, "string.6 from_fret = 5");
    build_record_drop(&record, "visit.1.pass.1 nut_gap.6");
    assert_true(check_record(&seed, &record) >= 6 * 10 - 2);
    record_done(&record);
}

/* Leaves coarser than the rule, so that what they read shows in the saddle. */
static void test_spots_and_fall_away(void **state)
{
    (void)state;
    check_lines("spots and fall-away",
                "visit.1.pass.1 spot.1 = .002 in\nvisit.1.pass.1 spot.17 = -.001 in\n"
                "visit.1.pass.1 spot.7 = .003 in\nvisit.1.pass.1 fall_away = .012 in\n"
                "board action_fret = 17\nmodel rule_step = 0.01 mm\n"
                "model feeler_step = 0.05 mm",
                6 * 10);
}

/* Away from the kink: string 4 alone decides how far the cut is raised. */
static void test_blank(void **state)
{
    (void)state;
    check_lines("blank",
                "bridge kind = blank\nvisit.1.pass.1 action.4 = 5.5/64 in\n"
                "visit.1.pass.1 action.3 = 8/64 in",
                6 * 10);
}

static void test_other_steps(void **state)
{
    (void)state;
    check_lines("metric steps",
                "model feeler_step = 0.05 mm\nmodel rule_step = 0.5 mm\nbridge kind = wheel",
                6 * 10);
}

/* JCGM 100:2008 (GUM), 4.3.7: a reading somewhere within one step a has u = a/sqrt(12), from
 * the half-width as (a/2)/sqrt(3) (from memory); twice that is U (6.2). */
static void test_plain_reading(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    derive_current(&record, &derived);
    assert_near(uncertainty_of_step(1), 0.5 / sqrt(3), 1e-15);
    assert_near_relative(derived.figures.at[FIGURE_ACTION][3].u, 25.4 / 128 / sqrt(3), 1e-9);
    assert_near_relative(derived.figures.at[FIGURE_RELIEF][0].u, 0.0254 / sqrt(3), 1e-9);
    record_done(&record);
}

/* No step, no uncertainty; and the readings come back as they were. */
static void test_no_step(void **state)
{
    struct derived derived;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "model feeler_step = 0 mm\nmodel rule_step = 0 mm");
    derive_current(&record, &derived);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            assert_near(derived.figures.at[id][s].u, 0, 0);
    record_done(&record);
}

static void test_reading_walk(void **state)
{
    struct uncertain list[UNCERTAIN_MAX];
    struct derived derived;
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    derive_current(&record, &derived);
    /* Relief, six gaps, six actions, two exposures. */
    assert_int_equal(uncertainty_list(&derived.setup, list), 1 + 6 + 6 + 2);
    for (int i = 0; i < 15; i++) {
        assert_true(list[i].step > 0);
        for (int k = 0; k < i; k++)
            assert_ptr_not_equal(list[i].reading, list[k].reading);
    }
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_single_scale),
        cmocka_unit_test(test_multi_scale),
        cmocka_unit_test(test_held),
        cmocka_unit_test(test_outer_two_only),
        cmocka_unit_test(test_by_course),
        cmocka_unit_test(test_short_string),
        cmocka_unit_test(test_spots_and_fall_away),
        cmocka_unit_test(test_blank),
        cmocka_unit_test(test_other_steps),
        cmocka_unit_test(test_plain_reading),
        cmocka_unit_test(test_no_step),
        cmocka_unit_test(test_reading_walk),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
