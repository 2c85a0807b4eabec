/* SPDX-License-Identifier: MIT */
#include <float.h>
#include <limits.h>
#include <math.h>
#include <string.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "model/setup/uncertainty.h"
#include "near.h"
#include "seeded.h"

/*
 * Numbers that no profile lets through, written straight into the input of the formulas:
 * nothing may crash, and a figure that is known must be a number.
 */

static const double hostile[] = {
    0,     -0.0,   -1,     1e-300, -1e-300, DBL_MIN,     DBL_MAX,          -DBL_MAX,
    1e155, -1e155, 5e-324, 1e9,    -1e9,    (double)NAN, (double)INFINITY, -(double)INFINITY};
enum { HOSTILE = (int)(sizeof hostile / sizeof hostile[0]) };

static struct setup healthy(const char *more)
{
    struct record record;
    struct derived derived;

    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 spot.5 = .002 in\n"
                              "visit.1.pass.1 relief.4 = .010 in\n"
                              "visit.1.pass.1 fall_away = .010 in");
    build_record_add(&record, more);
    derive_current(&record, &derived);
    record_done(&record);
    return derived.setup;
}

static void check_line(const struct string_line *line)
{
    if (line->known)
        assert_true(isfinite(line->nut_mm) && isfinite(line->saddle_mm));
}

static void run(const struct setup *setup, const char *what, double value)
{
    struct figures figures;
    struct move_choice choice;
    struct string_lines lines;

    memset(&figures, 0, sizeof figures);
    moves_solve(setup, NULL, &figures, &choice, &lines);
    reset_solve(setup, &figures);
    uncertainty_solve(setup, &choice, &figures);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++) {
            const struct figure *figure = &figures.at[id][s];

            if (figure->known == KNOWN_ABSENT)
                continue;
            if (!isfinite(figure->value) || isnan(figure->u) || figure->u < 0)
                fail_msg("%s = %g: %s of string %d is %g, u %g", what, value,
                         figure_info((enum figure_id)id)->name, s, figure->value, figure->u);
        }
    for (int s = 1; s <= STRINGS_MAX; s++) {
        check_line(&lines.now[s]);
        check_line(&lines.after[s]);
    }
}

/* Every double that a setup holds beside its board. */
enum { SLOTS = 29 + 2 * STRINGS_MAX };

static double *slot(struct setup *setup, int i, const char **ret_name)
{
    double *const list[] = {
        &setup->relief[0].gap_mm,
        &setup->relief[1].gap_mm,
        &setup->spot_mm[1].value,
        &setup->spot_mm[5].value,
        &setup->spot_mm[12].value,
        &setup->fall_away_mm.value,
        &setup->exposure_bass_mm.value,
        &setup->exposure_treble_mm.value,
        &setup->relief_target_mm.value,
        &setup->action_target_bass_mm.value,
        &setup->action_target_treble_mm.value,
        &setup->gap_target_bass_mm.value,
        &setup->gap_target_treble_mm.value,
        &setup->relief_tolerance_mm,
        &setup->action_tolerance_mm,
        &setup->gap_tolerance_mm,
        &setup->thread_mm.value,
        &setup->exposure_min_mm,
        &setup->exposure_new_mm,
        &setup->heel_depth_mm.value,
        &setup->pocket_length_mm.value,
        &setup->board_end_mm.value,
        &setup->feeler_step_mm,
        &setup->rule_step_mm,
        &setup->spot_mm[0].value,
        &setup->spot_mm[3].value,
        &setup->spot_mm[19].value,
        &setup->spot_mm[6].value,
        &setup->spot_mm[4].value,
    };
    static const char *const names[] = {
        "relief",
        "relief.4",
        "spot.1",
        "spot.5",
        "spot.12",
        "fall-away",
        "exposure bass",
        "exposure treble",
        "relief target",
        "action target bass",
        "action target treble",
        "gap target bass",
        "gap target treble",
        "relief tolerance",
        "action tolerance",
        "gap tolerance",
        "thread",
        "exposure min",
        "exposure new",
        "heel depth",
        "pocket length",
        "board end",
        "feeler step",
        "rule step",
        "spot.0",
        "spot.3",
        "spot.19",
        "spot.6",
        "spot.4",
    };

    if (i < 29) {
        *ret_name = names[i];
        return list[i];
    }
    i -= 29;
    *ret_name = i < STRINGS_MAX ? "nut gap" : "action";
    return i < STRINGS_MAX ? &setup->nut_gap_mm[i + 1].value
                           : &setup->action_mm[i - STRINGS_MAX + 1].value;
}

static const char *const variants[] = {"", "bridge kind = blank",
                                       "visit.1.pass.1 nut_method = held-3",
                                       "board scale_treble = 600 mm\nboard scale_bass = 700 mm"};

static void test_one_hostile_number(void **state)
{
    (void)state;
    for (size_t v = 0; v < sizeof variants / sizeof variants[0]; v++) {
        const struct setup good = healthy(variants[v]);

        for (int i = 0; i < SLOTS; i++)
            for (int h = 0; h < HOSTILE; h++) {
                struct setup setup = good;
                const char *name;

                *slot(&setup, i, &name) = hostile[h];
                run(&setup, name, hostile[h]);
            }
    }
}

static void test_many_hostile_numbers(void **state)
{
    struct seeded seed = seeded_start("hostile");
    struct setup good[4];

    (void)state;
    for (int v = 0; v < 4; v++)
        good[v] = healthy(variants[v]);
    for (int round = 0; round < 4000; round++) {
        struct setup setup = good[round % 4];
        const char *name;

        for (int n = seeded_whole(&seed, 2, 8); n > 0; n--)
            *slot(&setup, seeded_whole(&seed, 0, SLOTS - 1), &name) =
                hostile[seeded_whole(&seed, 0, HOSTILE - 1)];
        run(&setup, "several", 0);
    }
}

/* A target or reading that is no number must not pass for a move of nothing. */
static void test_no_false_zero(void **state)
{
    (void)state;
    for (int h = 0; h < HOSTILE; h++)
        for (int i = 0; i < 10; i++) {
            struct setup setup = healthy("");
            struct figures figures;
            const struct {
                double *number;
                int string; /* one that hangs on it */
            } list[] = {
                {&setup.relief[0].gap_mm, 3},
                {&setup.spot_mm[1].value, 3},
                {&setup.fall_away_mm.value, 3},
                {&setup.relief_target_mm.value, 3},
                {&setup.action_target_bass_mm.value, 5},
                {&setup.action_target_treble_mm.value, 1},
                {&setup.gap_target_bass_mm.value, 6},
                {&setup.gap_target_treble_mm.value, 2},
                {&setup.nut_gap_mm[4].value, 4},
                {&setup.action_mm[4].value, 4},
            };

            if (isfinite(hostile[h]))
                continue;
            setup.spot_mm[1] = setup.fall_away_mm = maybe_given(0);
            *list[i].number = hostile[h];
            memset(&figures, 0, sizeof figures);
            moves_solve(&setup, NULL, &figures, NULL, NULL);
            const int s = list[i].string;
            assert_int_equal(figures.at[FIGURE_SLOT_CHANGE][s].known, KNOWN_ABSENT);
            assert_int_equal(figures.at[FIGURE_SADDLE_CHANGE][s].known, KNOWN_ABSENT);
        }
}

static void test_hostile_relief_frets(void **state)
{
    const int frets[] = {0, -1, 1, 12, 19, 20, 36, 37, 1000000, INT_MAX, INT_MIN};

    (void)state;
    for (size_t i = 0; i < sizeof frets / sizeof frets[0]; i++) {
        struct setup setup = healthy("");

        setup.relief[0].fret = frets[i];
        run(&setup, "relief fret", frets[i]);
    }
}

static struct setup healthy_setup;

static void run_plan(const struct board_plan *plan, const char *what, double value)
{
    struct setup setup = healthy_setup;
    struct findings findings = {.count = 0};

    setup.has_board = board_init(&setup.board, plan, &findings) == STATUS_OK;
    setup.outfit = outfit_plain(setup.board.strings);
    run(&setup, what, value);
}

static struct board_plan good_plan(void)
{
    return (struct board_plan){.scale_treble_mm = 640,
                               .scale_bass_mm = 640,
                               .strings = 6,
                               .frets = 19,
                               .join_fret = 12,
                               .heel_fret = 10,
                               .action_fret = 12,
                               .relief_fret = 6,
                               .relief_end_low = 1,
                               .relief_end_high = -1};
}

static void test_hostile_board_numbers(void **state)
{
    (void)state;
    healthy_setup = healthy("");
    for (int h = 0; h < HOSTILE; h++) {
        struct board_plan plan = good_plan();

        plan.scale_treble_mm = hostile[h];
        run_plan(&plan, "treble scale", hostile[h]);
        plan.scale_bass_mm = hostile[h];
        run_plan(&plan, "both scales", hostile[h]);
        for (int s = 1; s <= 6; s++) {
            plan = good_plan();
            plan.setback_mm[s] = hostile[h];
            run_plan(&plan, "setback", hostile[h]);
        }
    }
}

static void test_hostile_board_frets(void **state)
{
    const int numbers[] = {0, -1, 1, 2, 3, 10, 11, 12, 13, 19, 20, 36, 37, 99, INT_MAX, INT_MIN};
    const int count = (int)(sizeof numbers / sizeof numbers[0]);
    struct seeded seed = seeded_start("hostile frets");

    (void)state;
    healthy_setup = healthy("");
    for (int round = 0; round < 20000; round++) {
        struct board_plan plan = good_plan();
        int *const frets[] = {&plan.join_fret,   &plan.heel_fret,      &plan.action_fret,
                              &plan.relief_fret, &plan.relief_end_low, &plan.relief_end_high,
                              &plan.frets,       &plan.strings};

        for (int n = seeded_whole(&seed, 1, 4); n > 0; n--)
            *frets[seeded_whole(&seed, 0, 7)] = numbers[seeded_whole(&seed, 0, count - 1)];
        plan.pocket = seeded_whole(&seed, 0, 1);
        run_plan(&plan, "frets", 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_hostile_number),    cmocka_unit_test(test_many_hostile_numbers),
        cmocka_unit_test(test_hostile_relief_frets),  cmocka_unit_test(test_no_false_zero),
        cmocka_unit_test(test_hostile_board_numbers), cmocka_unit_test(test_hostile_board_frets),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
