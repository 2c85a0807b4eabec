/* SPDX-License-Identifier: MIT */
#include "model/setup/moves.h"

#include <math.h>

#include "body_frame.h"
#include "near.h"
#include "seeded.h"

#define IN 25.4

/* A plain board without setback, flat, at its targets: relief 0, action 2, gap 0.4 mm. */
static struct setup setup_flat(double scale, int strings, int join, int heel)
{
    const struct board_plan plan = {.scale_treble_mm = scale,
                                    .scale_bass_mm = scale,
                                    .strings = strings,
                                    .frets = 20,
                                    .join_fret = join,
                                    .heel_fret = heel,
                                    .action_fret = 12,
                                    .relief_fret = -1,
                                    .relief_end_low = 1,
                                    .relief_end_high = -1};
    struct findings findings = {.count = 0};
    struct setup setup = {.has_board = true,
                          .bridge = BRIDGE_UNKNOWN,
                          .relief_tolerance_mm = 0.0254,
                          .action_tolerance_mm = 25.4 / 128,
                          .gap_tolerance_mm = 0.0254,
                          .feeler_step_mm = 0.0254,
                          .rule_step_mm = 25.4 / 128};

    assert_int_equal(board_init(&setup.board, &plan, &findings), STATUS_OK);
    setup.outfit = outfit_plain(setup.board.strings);
    assert_int_equal(findings.count, 0);
    setup.relief_count = 1;
    setup.relief[0] = (struct relief_reading){setup.board.relief_fret, 0};
    setup.relief_target_mm = maybe_given(0);
    setup.action_target_bass_mm = setup.action_target_treble_mm = maybe_given(2);
    setup.gap_target_bass_mm = setup.gap_target_treble_mm = maybe_given(0.4);
    for (int s = 1; s <= strings; s++) {
        setup.action_mm[s] = maybe_given(2);
        setup.nut_gap_mm[s] = maybe_given(0.4);
    }
    return setup;
}

static struct figures solve(const struct setup *setup)
{
    struct figures figures = {0};

    moves_solve(setup, NULL, &figures, NULL, NULL);
    return figures;
}

static double figure(const struct figures *figures, enum figure_id id, int string)
{
    const struct maybe figure = figures_get(figures, id, string);

    if (!figure.given)
        fail_msg("absent: %s, string %d", figure_info(id)->name, string);
    return figure.value;
}

/* Nut untouched, lowering the action at fret 12 by d takes 2 d off the saddle (common
 * practice, no published source); exactly d Ls/x_12, so a setback adds its share. */
static void test_twice_off_the_saddle(void **state)
{
    const double lower[] = {0.25, 0.5, 1, 2, -0.75};

    (void)state;
    for (int i = 0; i < 5; i++)
        for (double setback = -1; setback <= 4; setback += 2.5) {
            struct setup setup = setup_flat(648, 1, 14, -1);

            setup.board.contact_mm[1] += setback;
            setup.action_mm[1] = maybe_given(2 + lower[i]);
            /* The gap that leaves the slot right: the string pivots on it. */
            setup.nut_gap_mm[1] = maybe_given(0.4 + lower[i] * setup.board.station_mm[1][1] / 324);
            const struct figures figures = solve(&setup);
            assert_near(figure(&figures, FIGURE_SLOT_CHANGE, 1), 0, 0);
            assert_near(figure(&figures, FIGURE_SADDLE_CHANGE, 1),
                        -2 * lower[i] * (648 + setback) / 648, 1e-9);
            assert_near(figure(&figures, FIGURE_GAP_AT_TARGET, 1), 0.4, 1e-9);
        }
}

/* Nut to fret 12 bent evenly, straight from there (heel and relief end at fret 12): moved
 * by dk, relief at x goes by dk x (L/2 - x)/2 and, the nut going with the neck by
 * dk (L/2)^2/2, the action at fret 12 by half of that. Closed form, own derivation. */
static void test_rod_closed_form(void **state)
{
    struct setup setup = setup_flat(640, 1, 12, 12);
    const double x = setup.board.station_mm[1][5], x1 = setup.board.station_mm[1][1];

    (void)state;
    setup.board.relief_fret = 5;
    const double a = x1, b = 320;
    const double unit_relief = (x - a) * (b - x) / 2;
    setup.relief[0] = (struct relief_reading){5, 0.3};
    setup.relief_target_mm = maybe_given(0.1);
    const struct figures figures = solve(&setup);
    const double dk = 0.2 / unit_relief;
    assert_near(figure(&figures, FIGURE_CURVATURE, 0), 0.3 / unit_relief, 1e-15);
    assert_near(figure(&figures, FIGURE_ACTION_AFTER_ROD, 1), 2 - dk * b * b / 2 / 2, 1e-9);
    /* At fret 1: the nut goes down b^2/2, the crown (b - x1)^2/2. */
    assert_near(figure(&figures, FIGURE_GAP_AFTER_ROD, 1),
                0.4 - dk * (b * b / 2 * (1 - x1 / 640) - (b - x1) * (b - x1) / 2), 1e-9);
}

/* Taking relief out lowers the action at fret 12 by more than the relief went, and by no
 * more than a few times as much, wherever the neck joins (common practice). */
static void test_rod_lowers_action_more(void **state)
{
    (void)state;
    for (int join = 12; join <= 18; join++)
        for (int back = 1; back <= 3; back += 2) {
            struct setup setup = setup_flat(648, 6, join, join - back);

            setup.relief[0].gap_mm = 0.3;
            setup.relief_target_mm = maybe_given(0.15);
            const struct figures figures = solve(&setup);
            const double fall = 2 - figure(&figures, FIGURE_ACTION_AFTER_ROD, 3);
            assert_true(fall > 1.2 * 0.15 && fall < 3 * 0.15);
        }
}

/* One state of a random neck, read with all gauges, against the chord's frame. */
static void test_nut_methods_agree(void **state)
{
    struct seeded seed = seeded_start("moves");

    (void)state;
    for (int round = 0; round < 300; round++) {
        struct setup setup = setup_flat(648, 1, seeded_whole(&seed, 12, 18), -1);
        struct body_frame body = {.scale = 648,
                                  .contact = 648,
                                  .low = 1,
                                  .high = setup.board.end_high,
                                  .heel = setup.board.heel_fret,
                                  .last = 20,
                                  .kappa = seeded_between(&seed, -3e-5, 1e-4),
                                  .slot = seeded_between(&seed, 0.1, 1),
                                  .saddle = seeded_between(&seed, 2, 9)};
        const int relief_fret = setup.board.relief_fret;

        body.offset[1] = seeded_between(&seed, -0.05, 0.05);
        body.offset[3] = seeded_between(&seed, -0.05, 0.05);
        for (int n = 1; n <= 3; n += 2)
            setup.spot_mm[n] = maybe_given(body.offset[n]);
        setup.relief[0].gap_mm = body_relief(&body, relief_fret);
        setup.action_mm[1] = maybe_given(body_action(&body, 12));
        setup.nut_gap_mm[1] = maybe_given(body_gap_open(&body));
        const struct figures open = solve(&setup);
        setup.nut_method = NUT_HELD_3;
        setup.nut_gap_mm[1] = maybe_given(body_gap_held(&body));
        const struct figures held = solve(&setup);
        for (int id = FIGURE_ACTION; id <= FIGURE_SADDLE_CHANGE; id++)
            assert_near(figure(&held, (enum figure_id)id, 1), figure(&open, (enum figure_id)id, 1),
                        1e-9);
        assert_near(figure(&open, FIGURE_NUT_HEIGHT, 1),
                    body_string(&body, 0) - body_neck(&body, 0) +
                        body.kappa * setup.board.bend[1][0],
                    1e-9);
    }
}

/* A slot within its tolerance stays; one outside goes to the line through both targets. */
static void test_slot_choice(void **state)
{
    struct setup setup = setup_flat(648, 1, 14, -1);
    const double x1 = setup.board.station_mm[1][1];

    (void)state;
    setup.nut_gap_mm[1] = maybe_given(0.4 + 0.024);
    struct figures figures = solve(&setup);
    assert_near(figure(&figures, FIGURE_SLOT_CHANGE, 1), 0, 0);
    setup.nut_gap_mm[1] = maybe_given(0.4 + 0.1);
    figures = solve(&setup);
    /* Filing the slot by c lowers the gap by c (1 - x1/x12), the action staying at target. */
    assert_near(figure(&figures, FIGURE_SLOT_CHANGE, 1), -0.1 / (1 - x1 / 324), 1e-9);
    setup.nut_gap_mm[1] = maybe_given(0.4 - 0.1);
    figures = solve(&setup);
    assert_near(figure(&figures, FIGURE_SLOT_CHANGE, 1), 0.1 / (1 - x1 / 324), 1e-9);
    /* A high saddle flatters a slot that is too low: the open gap looks right. */
    setup.nut_gap_mm[1] = maybe_given(0.4);
    setup.action_mm[1] = maybe_given(4);
    figures = solve(&setup);
    assert_near(figure(&figures, FIGURE_GAP_AT_TARGET, 1), 0.4 - 2 * x1 / 324, 0.01);
    assert_true(figure(&figures, FIGURE_SLOT_CHANGE, 1) > 0);
}

/* Interpolation by string number, marked; outside the measured strings the nearest. */
static void test_outer_two_only(void **state)
{
    struct setup setup = setup_flat(648, 7, 14, -1);
    struct figures figures;

    (void)state;
    for (int s = 1; s <= 7; s++)
        if (s != 2 && s != 6)
            setup.action_mm[s].given = setup.nut_gap_mm[s].given = false;
    setup.action_mm[2] = maybe_given(2);
    setup.action_mm[6] = maybe_given(3);
    setup.nut_gap_mm[2] = maybe_given(0.3);
    setup.nut_gap_mm[6] = maybe_given(0.5);
    figures = solve(&setup);
    for (int s = 1; s <= 7; s++) {
        const double share = s <= 2 ? 0 : s >= 6 ? 1 : (s - 2) / 4.0;
        const bool read = s == 2 || s == 6;

        assert_near(figure(&figures, FIGURE_ACTION, s), 2 + share, 1e-12);
        assert_near(figure(&figures, FIGURE_NUT_GAP, s), 0.3 + 0.2 * share, 1e-12);
        assert_int_equal(figures.at[FIGURE_ACTION][s].known,
                         read ? KNOWN_READ : KNOWN_INTERPOLATED);
        assert_int_equal(figures.at[FIGURE_SADDLE_CHANGE][s].known,
                         read ? KNOWN_READ : KNOWN_INTERPOLATED);
    }
}

/* One straight cut at the bottom, the rest off the top, nothing ever put on. */
static void test_blank(void **state)
{
    struct setup setup = setup_flat(648, 6, 14, -1);
    const double high[] = {0, 0.8, 1.0, 1.6, 0.9, 1.3, 1.4};

    (void)state;
    setup.bridge = BRIDGE_BLANK;
    for (int s = 1; s <= 6; s++)
        setup.action_mm[s] = maybe_given(2 + high[s]);
    const struct figures figures = solve(&setup);
    const double first = figure(&figures, FIGURE_SADDLE_BOTTOM, 1);
    const double last = figure(&figures, FIGURE_SADDLE_BOTTOM, 6);
    int touching = 0;
    for (int s = 1; s <= 6; s++) {
        const double bottom = figure(&figures, FIGURE_SADDLE_BOTTOM, s);
        const double top = figure(&figures, FIGURE_SADDLE_TOP, s);

        assert_near(bottom, first + (last - first) * (s - 1) / 5, 1e-9);
        assert_near(bottom + top, figure(&figures, FIGURE_SADDLE_CHANGE, s), 1e-9);
        assert_true(top <= 1e-12);
        touching += top > -1e-9;
    }
    assert_int_equal(touching, 1);
    /* As steep as the outer two changes ask for. */
    assert_near(last - first,
                figure(&figures, FIGURE_SADDLE_CHANGE, 6) -
                    figure(&figures, FIGURE_SADDLE_CHANGE, 1),
                1e-9);
    assert_int_equal(figures.at[FIGURE_SADDLE_TURNS][1].known, KNOWN_ABSENT);
}

static void test_screws(void **state)
{
    const enum bridge_kind kinds[] = {BRIDGE_SCREW, BRIDGE_POST, BRIDGE_WHEEL, BRIDGE_UNKNOWN};

    (void)state;
    for (int k = 0; k < 4; k++) {
        struct setup setup = setup_flat(648, 4, 16, 15);

        setup.bridge = kinds[k];
        setup.thread_mm = maybe_given(0.7);
        setup.action_mm[3] = maybe_given(3.4);
        struct figures figures = solve(&setup);
        assert_int_equal(figures.at[FIGURE_SADDLE_BOTTOM][3].known, KNOWN_ABSENT);
        if (kinds[k] == BRIDGE_UNKNOWN) {
            assert_int_equal(figures.at[FIGURE_SADDLE_TURNS][3].known, KNOWN_ABSENT);
            continue;
        }
        assert_near(figure(&figures, FIGURE_SADDLE_TURNS, 3),
                    figure(&figures, FIGURE_SADDLE_CHANGE, 3) / 0.7, 1e-12);
        assert_near(figure(&figures, FIGURE_SADDLE_TURNS, 2), 0, 0);
        setup.thread_mm.given = false;
        figures = solve(&setup);
        assert_int_equal(figures.at[FIGURE_SADDLE_TURNS][3].known, KNOWN_ABSENT);
    }
}

/* Moves held fixed: made even where nothing is due, left where they are not held. */
static void test_held_choice(void **state)
{
    struct setup setup = setup_flat(648, 2, 14, -1);
    struct move_choice held = {.saddle = {false, true, false}};
    struct figures figures = {0};

    (void)state;
    setup.action_mm[1] = maybe_given(2.1);
    setup.action_mm[2] = maybe_given(2 + 25.4 / 64);
    moves_solve(&setup, &held, &figures, NULL, NULL);
    assert_true(figure(&figures, FIGURE_SADDLE_CHANGE, 1) < -0.19);
    assert_near(figure(&figures, FIGURE_SADDLE_CHANGE, 2), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_twice_off_the_saddle),
        cmocka_unit_test(test_rod_closed_form),
        cmocka_unit_test(test_rod_lowers_action_more),
        cmocka_unit_test(test_nut_methods_agree),
        cmocka_unit_test(test_slot_choice),
        cmocka_unit_test(test_outer_two_only),
        cmocka_unit_test(test_blank),
        cmocka_unit_test(test_screws),
        cmocka_unit_test(test_held_choice),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
