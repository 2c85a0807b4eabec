/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "words/amount.h"
#include "words/row_state.h"
#include "build_record.h"
#include "model/derive/derive.h"

static struct row_state find(const char *lines, enum bench_row_id row, bool metric)
{
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    struct derived *derived = malloc(sizeof *derived);
    struct record record;
    struct row_state state;

    build_record(&record, build_record_full);
    build_record_add(&record, lines);
    derive_current(&record, derived);
    row_state_find(&record, derived, &units, row, &state);
    record_done(&record);
    free(derived);
    return state;
}

static void relief_is_judged_as_read(void **state)
{
    (void)state;
    assert_int_equal(find("", ROW_RELIEF, false).verdict, VERDICT_HIGH);
    assert_string_equal(find("", ROW_RELIEF, false).target, ".006 in");
    assert_string_equal(find("", ROW_RELIEF, false).target_bare, ".006");
    assert_int_equal(find("visit.1.pass.1 relief = .006 in", ROW_RELIEF, false).verdict,
                     VERDICT_GOOD);
    assert_int_equal(find("visit.1.pass.1 relief = -.002 in", ROW_RELIEF, false).verdict,
                     VERDICT_LOW);
}

/* On the edge of its tolerance a reading is left alone. Inches do not subtract to the last
 * digit in mm: .007 - .006 and .005 - .006 are more than .001 there. */
static void the_tolerance_s_edge_is_good(void **state)
{
    (void)state;
    assert_int_equal(find("visit.1.pass.1 relief = .007 in", ROW_RELIEF, false).verdict,
                     VERDICT_GOOD);
    assert_int_equal(find("visit.1.pass.1 relief = .005 in", ROW_RELIEF, false).verdict,
                     VERDICT_GOOD);
    assert_int_equal(find("visit.1.pass.1 relief = .0085 in", ROW_RELIEF, false).verdict,
                     VERDICT_HIGH);
}

static void action_is_judged_over_all_strings(void **state)
{
    static const char good[] = "visit.1.pass.1 action.1 = 4/64 in\n"
                               "visit.1.pass.1 action.2 = 4.5/64 in\n"
                               "visit.1.pass.1 action.3 = 5/64 in\n"
                               "visit.1.pass.1 action.4 = 5/64 in\n"
                               "visit.1.pass.1 action.5 = 5.5/64 in\n"
                               "visit.1.pass.1 action.6 = 6/64 in\n";
    char one_off[512];

    (void)state;
    assert_int_equal(find("", ROW_ACTION, false).verdict, VERDICT_HIGH);
    assert_string_equal(find("", ROW_ACTION, false).target, "6 to 4 /64");
    /* Right as it is, and low once the relief is out and the slots are cut. */
    assert_int_equal(find(good, ROW_ACTION, false).verdict, VERDICT_LOW);
    assert_true(find(good, ROW_ACTION, false).then);
    strcpy(one_off, good);
    strcat(one_off, "visit.1.pass.1 relief = .006 in\ntargets nut_gap_tolerance = .02 in\n");
    assert_int_equal(find(one_off, ROW_ACTION, false).verdict, VERDICT_GOOD);
    assert_false(find(one_off, ROW_ACTION, false).then);
    strcat(one_off, "visit.1.pass.1 action.6 = 7/64 in\n");
    assert_int_equal(find(one_off, ROW_ACTION, false).verdict, VERDICT_HIGH);
    strcat(one_off, "visit.1.pass.1 action.3 = 4/64 in\n");
    assert_int_equal(find(one_off, ROW_ACTION, false).verdict, VERDICT_MIXED);
}

#define HELD "visit.1.pass.1 nut_method = held-3\n"

/* What a string at all its targets leaves over fret 1, held down on fret 3: from the heights over
 * the chord of three points on a straight string (plane geometry), the neck's own being those of
 * the relief that is wanted. */
static double held_mm(int string, double relief_mm, double gap_mm, double action_mm)
{
    struct derived *derived = malloc(sizeof *derived);
    struct record record;
    double z[FRETS_MAX + 1];

    build_record(&record, build_record_full);
    derive_current(&record, derived);
    const struct board *board = &derived->setup.board;
    const double *x = board->station_mm[string];
    struct neck_curve curve = derived->lines.curve_now;
    curve.kappa_per_mm *= relief_mm / neck_curve_relief_mm(board, curve.kappa_per_mm);
    for (int n = 0; n <= board->frets; n++)
        z[n] = neck_curve_height_mm(&curve, board, string, n);
    const int k = board->action_fret;
    const double u1 = z[1] + gap_mm, uk = z[k] + action_mm;
    const double nut = u1 - (uk - u1) / (x[k] - x[1]) * x[1];
    const double held = nut + (z[3] - nut) * x[1] / x[3] - z[1];
    record_done(&record);
    free(derived);
    return held;
}

static void gaps_read_held_are_wanted_held(void **state)
{
    const double in = 25.4, bass = held_mm(6, .006 * in, .018 * in, 6 * in / 64),
                 treble = held_mm(1, .006 * in, .012 * in, 4 * in / 64);
    char memory[40];
    struct strbuf text = STRBUF(memory);

    (void)state;
    amount_add_range(&text, bass, treble, UNIT_TH);
    assert_true(bass < .008 * in && treble > .002 * in);
    assert_string_equal(find("", ROW_GAP, false).target, ".018 to .012 in");
    strbuf_add(&text, " held");
    assert_string_equal(find(HELD, ROW_GAP, false).target_bare, memory);
    strbuf_clear(&text);
    amount_add_range(&text, bass, treble, UNIT_TH);
    strbuf_add(&text, " in held");
    assert_string_equal(find(HELD, ROW_GAP, false).target, memory);
}

/* At all its targets a row of held gaps is good, and just that is seen beside what is wanted; well
 * above it is high, by the slots. */
static void held_gaps_are_judged_by_the_slots(void **state)
{
    static const char right[] = HELD "visit.1.pass.1 relief = .006 in\n";
    char lines[1200];
    struct strbuf text = STRBUF(lines);

    (void)state;
    for (int high = 0; high < 2; high++) {
        strbuf_clear(&text);
        strbuf_add(&text, right);
        for (int s = 1; s <= 6; s++) {
            const double in = 25.4, gap = (.012 + .006 * (s - 1) / 5) * in,
                         action = (4 + 2. * (s - 1) / 5) * in / 64;

            strbuf_addf(&text, "visit.1.pass.1 action.%d = %.3f mm\n", s, action);
            strbuf_addf(&text, "visit.1.pass.1 nut_gap.%d = %.3f mm\n", s,
                        held_mm(s, .006 * in, gap, action) + .15 * high);
        }
        const struct row_state found = find(lines, ROW_GAP, false);
        assert_int_equal(found.verdict, high ? VERDICT_HIGH : VERDICT_GOOD);
        assert_false(found.then);
    }
}

/* Without the targets that a held gap hangs on, what is wanted is that of the open string. */
static void without_its_targets_a_held_gap_is_wanted_open(void **state)
{
    (void)state;
    assert_string_equal(find(HELD "board frets = 2", ROW_GAP, false).target,
                        ".018 to .012 in open");
}

static void exposure_is_judged_by_what_is_left(void **state)
{
    (void)state;
    assert_string_equal(find("", ROW_EXPOSURE, false).target, "7.5 /64");
    assert_int_equal(find("", ROW_EXPOSURE, false).verdict, VERDICT_GOOD);
    assert_int_equal(find("visit.1.pass.1 exposure_bass = 1 mm\n"
                          "visit.1.pass.1 exposure_treble = 1 mm\n",
                          ROW_EXPOSURE, false)
                         .verdict,
                     VERDICT_LOW);
}

static void rows_speak_the_shop_s_units(void **state)
{
    (void)state;
    assert_string_equal(find("", ROW_ACTION, true).target, "2.4 to 1.6 mm");
}

static void without_readings_there_is_no_verdict(void **state)
{
    const struct shop_units units = shop_units_inch();
    struct derived *derived = malloc(sizeof *derived);
    struct record record;

    (void)state;
    record_init(&record);
    derive_pass(place_of(&record, 1, 1), derived);
    for (int row = 0; row < ROW_COUNT_; row++) {
        struct row_state found;

        row_state_find(&record, derived, &units, (enum bench_row_id)row, &found);
        assert_int_equal(found.verdict, VERDICT_NONE);
        /* The least exposure has a value of its own. */
        if (row != ROW_EXPOSURE)
            assert_string_equal(found.target, "");
    }
    record_done(&record);
    free(derived);
}

static void verdicts_have_words(void **state)
{
    (void)state;
    assert_string_equal(row_verdict_word(VERDICT_NONE), "");
    assert_string_equal(row_verdict_word(VERDICT_GOOD), "good");
    assert_string_equal(row_verdict_word(VERDICT_HIGH), "high");
    assert_string_equal(row_verdict_word(VERDICT_LOW), "low");
    assert_string_equal(row_verdict_word(VERDICT_MIXED), "mixed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(relief_is_judged_as_read),
        cmocka_unit_test(the_tolerance_s_edge_is_good),
        cmocka_unit_test(action_is_judged_over_all_strings),
        cmocka_unit_test(gaps_read_held_are_wanted_held),
        cmocka_unit_test(held_gaps_are_judged_by_the_slots),
        cmocka_unit_test(without_its_targets_a_held_gap_is_wanted_open),
        cmocka_unit_test(exposure_is_judged_by_what_is_left),
        cmocka_unit_test(rows_speak_the_shop_s_units),
        cmocka_unit_test(without_readings_there_is_no_verdict),
        cmocka_unit_test(verdicts_have_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
