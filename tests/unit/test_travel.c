/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bench_session.h"
#include "build_record.h"
#include "leaf/bench/expected.h"
#include "words/row_state.h"

/* The travel left at saddles that have screws of their own. */

/* build_record_full has 5 and 4.5 mm left at the outer strings, wants 3 mm, and is to be lowered.
 */
static double lowered_by(const struct derived *derived, int string)
{
    const struct move_amount *amount = &derived->moves.move[MOVE_SADDLE].string[string];

    assert_true(amount->due);
    assert_true(amount->value < -0.4);
    return -amount->value;
}

static void it_is_said_where_it_runs_out(void **state)
{
    static const char read[] = "visit.1.pass.1 exposure.5 = 2.4 mm\n"
                               "visit.1.pass.1 exposure.4 = 2 mm\n"
                               "visit.1.pass.1 exposure.2 = 6 mm\n";
    const struct shop_units units = shop_units_metric();
    const struct derived derived = build_derived(build_record_full, read);
    const struct move *saddle = &derived.moves.move[MOVE_SADDLE];
    struct move_words words;
    struct row_state row;
    struct record record;

    (void)state;
    assert_int_equal(saddle->state, MOVE_DUE);
    assert_near(assert_given(saddle->short_mm[4]), 3 - (2 - lowered_by(&derived, 4)), 1e-9);
    assert_near(assert_given(saddle->short_mm[5]), 3 - (2.4 - lowered_by(&derived, 5)), 1e-9);
    for (int s = 1; s <= 6; s++)
        if (s != 4 && s != 5)
            assert_false(saddle->short_mm[s].given);
    /* The outer two have enough, so that the neck is not reset. */
    assert_int_not_equal(derived.moves.move[MOVE_RESET].state, MOVE_DUE);
    move_words_make(&derived, MOVE_SADDLE, &units, &words);
    assert_non_null(strstr(words.caution, "travel runs out: string 5 by "));
    assert_non_null(strstr(words.caution, ", 4 by "));
    build_record(&record, build_record_full);
    build_record_add(&record, read);
    row_state_find(&record, &derived, &units, ROW_EXPOSURE, &row);
    assert_int_equal(row.verdict, VERDICT_LOW);
    assert_true(row.then);
    record_done(&record);
}

/* What the rule cannot tell is no shortage: its step of 1/128 in is 0.4 mm at the most. */
static void nothing_is_short_within_doubt(void **state)
{
    const struct derived bare = build_derived(build_record_full, "");
    const struct move *saddle = &bare.moves.move[MOVE_SADDLE];
    char line[80];

    (void)state;
    for (int s = 1; s <= 6; s++)
        assert_false(saddle->short_mm[s].given);
    const double just_mm = 3 + lowered_by(&bare, 3);
    for (int below = 0; below <= 1; below++) {
        snprintf(line, sizeof line, "visit.1.pass.1 exposure.3 = %.6f mm\n",
                 just_mm - (below ? 1.5 : 0.02));
        const struct derived derived = build_derived(build_record_full, line);

        assert_int_equal(derived.moves.move[MOVE_SADDLE].short_mm[3].given, below);
    }
}

static int count_inner(const struct app *app)
{
    int count = 0;

    for (int i = 0; i < app->route.count; i++)
        count += app->route.cells[i].key.field == FIELD_EXPOSURE;
    return count;
}

static void the_bench_has_cells_that_enter_passes(void **state)
{
    struct app *app = bench_open(build_record_full, "", LEAF_BENCH);
    const struct reading_key bass = reading_key_pass(FIELD_EXPOSURE_BASS, 1, 1);

    (void)state;
    assert_int_equal(count_inner(app), 4);
    app->at = route_find(&app->route, &bass);
    bench_press(app, "{Enter}");
    assert_int_equal(app_cell(app)->key.field, FIELD_EXPOSURE_TREBLE);
    app->at = route_find(&app->route, &bass);
    bench_press(app, "{Right}");
    assert_int_equal(app_cell(app)->key.field, FIELD_EXPOSURE);
    assert_int_equal(app_cell(app)->key.string, 5);
    /* Enter goes along them once one is in hand. */
    bench_press(app, "10{Enter}");
    assert_string_equal(bench_text(app, "visit.1.pass.1 exposure.5"), "10/64 in");
    assert_int_equal(app_cell(app)->key.string, 4);
    bench_close(app);
    app = bench_open(build_record_full, "bridge kind = blank\n", LEAF_BENCH);
    assert_int_equal(count_inner(app), 0);
    bench_close(app);
    app = bench_open(build_record_full, "bridge kind = wheel\nvisit.1.pass.1 exposure.5 = 4 mm\n",
                     LEAF_BENCH);
    assert_int_equal(count_inner(app), 1); /* what was read is shown */
    bench_close(app);
}

static void the_next_pass_expects_less_of_it(void **state)
{
    struct app *app = bench_open(build_record_full,
                                 "targets relief = .013 in\nvisit.1.pass.1 time = 09:00\n"
                                 "visit.1.pass.1 exposure.4 = 6 mm\nvisit.1.work.1 kind = saddle\n"
                                 "visit.1.work.1 amount = \"string 4 -0.5, string 3 -0.5 mm\"\n"
                                 "visit.1.work.1 time = 10:00\n",
                                 LEAF_BENCH);
    const struct reading_key key = reading_key_pass_at(FIELD_EXPOSURE, 1, 2, 4, 0);

    (void)state;
    bench_press(app, "p");
    assert_int_equal(app->pass, 2);
    const int at = route_find(&app->route, &key);
    assert_true(at >= 0);
    assert_near(assert_given(bench_expected(app, &app->route.cells[at])), 5.5, 1e-9);
    bench_close(app);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_said_where_it_runs_out),
        cmocka_unit_test(nothing_is_short_within_doubt),
        cmocka_unit_test(the_bench_has_cells_that_enter_passes),
        cmocka_unit_test(the_next_pass_expects_less_of_it),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
