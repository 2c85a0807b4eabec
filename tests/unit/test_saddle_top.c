/* SPDX-License-Identifier: MIT */
#include "model/frets/saddle_top.h"

#include <math.h>

#include "model/derive/derive_saddle_top.h"
#include "model/derive/derive.h"
#include "near.h"
#include "seeded.h"
#include "survey_record.h"

/*
 * Nobody we know has published such numbers; the checks are geometry by hand: a cylinder under
 * parallel strings, a cone under strings that run along it, and boards in space that are built
 * point by point.
 */

/* The lowest string starts at `from_fret`; 0: at the nut. */
static void make_short_board(struct board *board, int strings, double scale_mm, int from_fret)
{
    struct board_plan plan = {.scale_treble_mm = scale_mm,
                              .scale_bass_mm = scale_mm,
                              .strings = strings,
                              .frets = 20,
                              .join_fret = 14,
                              .heel_fret = -1,
                              .action_fret = 12,
                              .relief_fret = -1,
                              .relief_end_low = 1,
                              .relief_end_high = -1};
    struct findings findings = {.count = 0};

    plan.from_fret[strings] = from_fret;
    assert_int_equal(board_init(board, &plan, &findings), STATUS_OK);
    assert_true(board->has_curve);
}

static void make_board(struct board *board, int strings, double scale_mm)
{
    make_short_board(board, strings, scale_mm, 0);
}

/* Evenly across, string 1 at +half. */
static void spread(double place_mm[STRINGS_MAX + 1], int strings, double half_mm)
{
    for (int s = 1; s <= strings; s++)
        place_mm[s] = half_mm * (1 - 2.0 * (s - 1) / (strings - 1));
}

/* Five strings 12.5 mm apart over a cylinder of 250 mm, all as high over it: 250 - sqrt(250² - 25²)
 * is 1.253141 and 250 - sqrt(250² - 12.5²) is 0.312696. */
static void a_cylinder_under_parallel_strings_is_the_saddles_own(void **state)
{
    static const double by_hand[] = {0, 0, 0.940445, 1.253141, 0.940445, 0};
    struct board board;
    struct saddle_top_plan plan = {.board = &board,
                                   .treble = 1,
                                   .bass = 5,
                                   .radius_nut_mm = 250,
                                   .radius_end_mm = 250,
                                   .end_mm = 450};
    double over_mm[STRINGS_MAX + 1];

    (void)state;
    make_board(&board, 5, 640);
    spread(plan.nut_mm, 5, 25);
    spread(plan.saddle_mm, 5, 25);
    for (int s = 1; s <= 5; s++)
        plan.over_chord_mm[s] = 10;
    assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_OK);
    for (int s = 1; s <= 5; s++)
        assert_near(over_mm[s], by_hand[s], 1e-6);
    assert_near(assert_given(saddle_top_circle_mm(1, 5, plan.saddle_mm, over_mm)), 250, 1e-6);
    /* More action on the bass side tilts the line and nothing else. */
    for (int s = 1; s <= 5; s++)
        plan.over_chord_mm[s] = 10 + 0.7 * s;
    assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_OK);
    for (int s = 1; s <= 5; s++)
        assert_near(over_mm[s], by_hand[s], 1e-6);
}

/* 9.5 in at the nut and 14 in at the board's end, 18 in from it; strings that spread as the radius
 * grows lie in planes through the cone's tip, so the saddle at 25.5 in has the cone's radius there:
 * 9.5 + 4.5 × 25.5/18 = 15.875 in. */
static void along_a_cone_it_is_the_cones_at_the_saddle(void **state)
{
    const double in = 25.4, nut_half = 18, at_saddle = 15.875 * in;
    struct board board;
    struct saddle_top_plan plan = {.board = &board,
                                   .treble = 1,
                                   .bass = 6,
                                   .radius_nut_mm = 9.5 * in,
                                   .radius_end_mm = 14 * in,
                                   .end_mm = 18 * in};
    double over_mm[STRINGS_MAX + 1];

    (void)state;
    make_board(&board, 6, 25.5 * in);
    spread(plan.nut_mm, 6, nut_half);
    spread(plan.saddle_mm, 6, nut_half * 15.875 / 9.5);
    for (int s = 1; s <= 6; s++)
        plan.over_chord_mm[s] = 12;
    assert_near(saddle_top_radius_at_mm(&plan, 25.5 * in), at_saddle, 1e-9);
    assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_OK);
    const double half = plan.saddle_mm[1];
    for (int s = 1; s <= 6; s++) {
        const double y = plan.saddle_mm[s];

        assert_near(over_mm[s],
                    sqrt(at_saddle * at_saddle - y * y) - sqrt(at_saddle * at_saddle - half * half),
                    1e-9);
    }
    assert_near(assert_given(saddle_top_circle_mm(1, 6, plan.saddle_mm, over_mm)), at_saddle, 1e-6);
}

/* A crown's height in space, from the cone's own equation y² + (z + R)² = R², by halving. */
static double crown_by_halving(double radius, double y)
{
    double low = -radius, high = 0;

    for (int i = 0; i < 200; i++) {
        const double z = (low + high) / 2;

        if (y * y + (z + radius) * (z + radius) < radius * radius)
            low = z;
        else
            high = z;
    }
    return low;
}

/* Tops are put anywhere in space; what is told of the strings is only how far they stand over their
 * own frets, and the tops come back. It is the same line, wherever a string starts on it. */
static void tops_in_space_are_found_again(void **state)
{
    struct seeded seed = seeded_start("saddle top");

    (void)state;
    for (int i = 0; i < 300; i++) {
        const int strings = 3 + i % 8;
        const double radius_nut = seeded_between(&seed, 180, 400);
        const double radius_end = seeded_between(&seed, 180, 600);
        struct board board;
        struct saddle_top_plan plan = {.board = &board,
                                       .treble = 1,
                                       .bass = strings,
                                       .radius_nut_mm = radius_nut,
                                       .radius_end_mm = radius_end,
                                       .end_mm = seeded_between(&seed, 430, 500)};
        double top[STRINGS_MAX + 1], over_mm[STRINGS_MAX + 1];

        make_short_board(&board, strings, seeded_between(&seed, 560, 900), i % 3 ? 0 : i % 9);
        spread(plan.nut_mm, strings, seeded_between(&seed, 15, 22));
        spread(plan.saddle_mm, strings, seeded_between(&seed, 22, 30));
        const double contact = board.contact_mm[1];
        for (int s = 1; s <= strings; s++) {
            double z[2],
                x[2] = {board.station_mm[1][board.end_low], board.station_mm[1][board.end_high]};

            top[s] = seeded_between(&seed, 5, 15);
            for (int end = 0; end < 2; end++) {
                const double y =
                    plan.nut_mm[s] + (plan.saddle_mm[s] - plan.nut_mm[s]) * x[end] / contact;

                z[end] = crown_by_halving(
                    radius_nut + (radius_end - radius_nut) * x[end] / plan.end_mm, y);
            }
            const double slope = (z[1] - z[0]) / (x[1] - x[0]);
            plan.over_chord_mm[s] = top[s] - (z[1] + slope * (contact - x[1]));
        }
        assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_OK);
        for (int s = 1; s <= strings; s++) {
            const double to_bass = (s - 1.0) / (strings - 1);

            assert_near(over_mm[s], top[s] - (top[1] + (top[strings] - top[1]) * to_bass), 1e-9);
        }
    }
}

static double misfit(const double *saddle_mm, const double *over_mm, int strings, double depth)
{
    double sum = 0;

    for (int s = 2; s < strings; s++) {
        const double h = over_mm[s], y = saddle_mm[s], half = saddle_mm[1];
        const double off = (h + depth) * (h + depth) + y * y - half * half - depth * depth;

        sum += off * off;
    }
    return sum;
}

static void no_other_circle_fits_better(void **state)
{
    struct seeded seed = seeded_start("circle");

    (void)state;
    for (int i = 0; i < 100; i++) {
        double saddle_mm[STRINGS_MAX + 1], over_mm[STRINGS_MAX + 1] = {0};

        spread(saddle_mm, 6, 26);
        for (int s = 2; s < 6; s++)
            over_mm[s] = (i % 2 ? -1 : 1) * seeded_between(&seed, 0.4, 1.6);
        const double radius = assert_given(saddle_top_circle_mm(1, 6, saddle_mm, over_mm));
        const double depth = copysign(sqrt(radius * radius - 26 * 26), radius);
        const double least = misfit(saddle_mm, over_mm, 6, depth);

        assert_int_equal(radius > 0, i % 2 == 0);
        assert_true(misfit(saddle_mm, over_mm, 6, depth * 1.001) > least);
        assert_true(misfit(saddle_mm, over_mm, 6, depth * 0.999) > least);
    }
}

static void what_is_no_cone_gives_nothing(void **state)
{
    static const struct {
        double nut, end, at, half;
    } no[] = {{0, 300, 450, 25},           {300, 0, 450, 25},          {300, 300, 0, 25},
              {300, (double)NAN, 450, 25}, {300, 10, 200, 25},         {20, 20, 450, 25},
              {300, 300, 450, 0},          {300, 300, (double)NAN, 25}};
    struct board board;
    double over_mm[STRINGS_MAX + 1];

    (void)state;
    make_board(&board, 6, 640);
    for (size_t i = 0; i < sizeof no / sizeof no[0]; i++) {
        struct saddle_top_plan plan = {.board = &board,
                                       .treble = 1,
                                       .bass = 6,
                                       .radius_nut_mm = no[i].nut,
                                       .radius_end_mm = no[i].end,
                                       .end_mm = no[i].at};

        spread(plan.nut_mm, 6, 22);
        spread(plan.saddle_mm, 6, no[i].half);
        assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_DOMAIN);
    }
    /* A flat board is one. */
    struct saddle_top_plan plan = {.board = &board, .treble = 1, .bass = 6, .end_mm = 450};
    spread(plan.nut_mm, 6, 22);
    spread(plan.saddle_mm, 6, 25);
    assert_int_equal(saddle_top_heights(&plan, over_mm), STATUS_OK);
    assert_near(over_mm[3], 0, 1e-12);
    assert_false(saddle_top_circle_mm(1, 6, plan.saddle_mm, over_mm).given);
}

/* --- of a record --- */

static const char build[] = "board radius_nut = 12 in\n"
                            "board radius_end = 16 in\n"
                            "nut width = 43 mm\n"
                            "nut margin_bass = 3 mm\n"
                            "nut margin_treble = 3 mm\n"
                            "nut spread = equal-gaps\n"
                            "bridge spread = 54 mm\n";

/* `bass`: the lowest string of the top. */
static void check_at_targets(const char *more, int bass)
{
    struct record record;
    struct derived derived;

    survey_record_build(&record, build);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    const struct setup *setup = &derived.setup;
    const int strings = setup->board.strings;

    build_record_put_mm(&record, reading_key_pass(FIELD_RELIEF, 1, 1),
                        assert_given(setup->relief_target_mm));
    for (int s = 1; s <= strings; s++) {
        build_record_put_mm(
            &record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0),
            assert_given(setup_target_at(&setup->gap_target_bass_mm, &setup->gap_target_treble_mm,
                                         &setup->outfit, s)));
        build_record_put_mm(
            &record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0),
            assert_given(setup_target_at(&setup->action_target_bass_mm,
                                         &setup->action_target_treble_mm, &setup->outfit, s)) +
                (s == 3 ? 0.2 : 0));
    }
    derive_current(&record, &derived);
    for (int s = 2; s < bass; s++) {
        const double off = assert_given(figures_get(&derived.figures, FIGURE_SADDLE_OVER_NOW, s)) -
                           assert_given(figures_get(&derived.figures, FIGURE_SADDLE_OVER, s));

        /* String 3 is 0.2 mm too high at fret 12, and right over fret 1. */
        const struct board *board = &derived.setup.board;
        const double x1 = board->station_mm[s][1];
        const double rise = (board->contact_mm[s] - x1) / (board->station_mm[s][12] - x1);
        assert_near(off, s == 3 ? 0.2 * rise : 0, 1e-6);
        assert_true(derived.figures.at[FIGURE_SADDLE_OVER_NOW][s].u > 0);
    }
    assert_true(assert_given(figures_get(&derived.figures, FIGURE_BOARD_RADIUS, 0)) > 16 * 25.4);
    assert_false(figures_get(&derived.figures, FIGURE_SADDLE_OVER, 1).given);
    for (int s = bass; s <= strings; s++)
        assert_false(figures_get(&derived.figures, FIGURE_SADDLE_OVER, s).given);
    record_done(&record);
}

static void at_its_targets_every_top_is_where_it_should_be(void **state)
{
    (void)state;
    check_at_targets("", 6);
    check_at_targets("string.6 from_fret = 5\n", 5);
}

/* Five strings alike over a flat board want a flat top, to what their setbacks differ by, whatever
 * the sixth, which starts at fret 5, wants of its notch. */
static void a_short_string_does_not_bend_the_top(void **state)
{
    struct record record;
    struct derived derived;

    (void)state;
    survey_record_build(&record, build);
    build_record_add(&record, "string.6 from_fret = 5\nboard radius_nut = flat\n"
                              "board radius_end = flat\ntargets action_bass = 2 mm\n"
                              "targets action_treble = 2 mm\ntargets nut_gap_bass = .4 mm\n"
                              "targets nut_gap_treble = .4 mm\n");
    derive_current(&record, &derived);
    for (int s = 2; s < 5; s++)
        assert_near(assert_given(figures_get(&derived.figures, FIGURE_SADDLE_OVER, s)), 0, 0.02);
    assert_false(figures_get(&derived.figures, FIGURE_SADDLE_RADIUS, 0).given);
    record_done(&record);
}

static void what_is_missing_leaves_it_absent(void **state)
{
    static const char *const needed[] = {
        "board radius_nut", "board radius_end", "nut margin_bass", "nut spread",
        "bridge spread",    "string.4 gauge",   "targets relief",  "targets action_bass"};

    (void)state;
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        struct record record;
        struct derived derived;

        survey_record_build(&record, build);
        derive_current(&record, &derived);
        assert_true(figures_get(&derived.figures, FIGURE_SADDLE_RADIUS, 0).given);
        build_record_drop(&record, needed[i]);
        derive_current(&record, &derived);
        assert_false(figures_get(&derived.figures, FIGURE_SADDLE_RADIUS, 0).given);
        assert_false(figures_get(&derived.figures, FIGURE_SADDLE_OVER, 3).given);
        record_done(&record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cylinder_under_parallel_strings_is_the_saddles_own),
        cmocka_unit_test(along_a_cone_it_is_the_cones_at_the_saddle),
        cmocka_unit_test(tops_in_space_are_found_again),
        cmocka_unit_test(no_other_circle_fits_better),
        cmocka_unit_test(what_is_no_cone_gives_nothing),
        cmocka_unit_test(at_its_targets_every_top_is_where_it_should_be),
        cmocka_unit_test(a_short_string_does_not_bend_the_top),
        cmocka_unit_test(what_is_missing_leaves_it_absent),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
