/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "build_record.h"
#include "model/setup/bench_goal.h"

static void rows_hold_readings_of_a_pass(void **state)
{
    (void)state;
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct bench_row *row = bench_row_get((enum bench_row_id)id);

        for (int end = 0; end < END_COUNT_; end++) {
            const struct field *field = field_get(row->field[end]);

            assert_int_equal(field->section, SECTION_PASS);
            assert_int_equal(field->quantity, QUANTITY_LENGTH);
            assert_true(field->per == PER_STRING || field->per == PER_ONE);
        }
        assert_int_not_equal(strlen(row->label), 0);
        assert_int_not_equal(strlen(row->sheet[END_BASS]), 0);
        /* A string's reading has no other end. */
        assert_false(bench_row_by_string(row) && bench_row_has_ends(row));
    }
}

static void rows_that_want_something_can_be_judged(void **state)
{
    (void)state;
    for (int id = 0; id < ROW_COUNT_; id++) {
        const struct bench_row *row = bench_row_get((enum bench_row_id)id);
        const enum field_per per = bench_row_by_string(row) ? PER_STRING : PER_ONE;

        assert_true(row->goal != GOAL_NEAR || row->tolerance != FIELD_COUNT_);
        for (int end = 0; row->goal != GOAL_NONE && end < END_COUNT_; end++) {
            assert_true(row->target[end] != FIELD_COUNT_ && row->move != MOVE_COUNT_);
            assert_int_equal(field_get(row->target[end])->measure,
                             field_get(row->field[end])->measure);
        }
        assert_true(row->figure == FIGURE_COUNT_ || figure_info(row->figure)->per == per);
        /* A gap read held down is turned into the open one by its figure. */
        assert_true(!row->read_held || row->figure != FIGURE_COUNT_);
        assert_true(row->forecast != FORECAST_HEIGHT || row->fret != AT_SADDLE);
    }
}

static void rows_go_as_a_tech_measures(void **state)
{
    (void)state;
    assert_string_equal(bench_row_get(ROW_RELIEF)->label, "relief");
    assert_true(ROW_RELIEF < ROW_GAP && ROW_GAP < ROW_ACTION && ROW_ACTION < ROW_EXPOSURE);
}

static void rows_are_found_by_what_they_hold(void **state)
{
    const struct bench_row *exposure = bench_row_get(ROW_EXPOSURE);

    (void)state;
    assert_ptr_equal(bench_row_of(FIELD_EXPOSURE_TREBLE), exposure);
    assert_int_equal(bench_row_end(exposure, FIELD_EXPOSURE_TREBLE), END_TREBLE);
    assert_int_equal(bench_row_end(exposure, FIELD_EXPOSURE_BASS), END_BASS);
    assert_ptr_equal(bench_row_of(FIELD_RELIEF), bench_row_get(ROW_RELIEF));
    assert_int_equal(bench_row_end(bench_row_get(ROW_RELIEF), FIELD_RELIEF), END_BASS);
    assert_ptr_equal(bench_row_of_target(FIELD_TARGET_ACTION_TREBLE), bench_row_get(ROW_ACTION));
    assert_null(bench_row_of(FIELD_CENTS));
    assert_null(bench_row_of(FIELD_TARGET_RELIEF));
    assert_null(bench_row_of_target(FIELD_RELIEF));
}

static void targets_are_spread_over_the_strings(void **state)
{
    const struct setup setup = {.outfit = outfit_plain(6)};
    struct record record;

    (void)state;
    build_record(&record, build_record_full);
    build_record_add(&record, "targets action_bass = 2.5 mm\ntargets action_treble = 1.5 mm\n");
    assert_near(assert_given(bench_goal_on(bench_row_get(ROW_ACTION), &record, &setup, 6)), 2.5,
                1e-12);
    assert_near(assert_given(bench_goal_on(bench_row_get(ROW_ACTION), &record, &setup, 1)), 1.5,
                1e-12);
    assert_near(assert_given(bench_goal_on(bench_row_get(ROW_ACTION), &record, &setup, 3)), 1.9,
                1e-12);
    record_done(&record);
}

/* The least exposure has a fallback, nothing else is wanted before somebody says so. */
static void an_empty_record_wants_exposure_alone(void **state)
{
    const struct setup setup = {.outfit = outfit_plain(6)};
    struct record record;

    (void)state;
    record_init(&record);
    assert_false(bench_goal_on(bench_row_get(ROW_RELIEF), &record, &setup, 6).given);
    assert_false(bench_goal_on(bench_row_get(ROW_ACTION), &record, &setup, 6).given);
    assert_near(assert_given(bench_goal_on(bench_row_get(ROW_EXPOSURE), &record, &setup, 1)), 1.6,
                1e-12);
    record_done(&record);
}

static const char *place_words(enum bench_row_id id, const struct outfit *outfit,
                               const struct board *board)
{
    static char memory[40];
    struct strbuf text = STRBUF(memory);

    strbuf_clear(&text);
    bench_row_add_place(bench_row_get(id), outfit, board, &text);
    return memory;
}

static void frets_are_where_the_board_has_them(void **state)
{
    struct board board = {.action_fret = 14, .relief_fret = 7, .has_relief = true};
    struct outfit fretted = outfit_plain(6), fretless = fretted;

    (void)state;
    fretless.fretless = true;
    assert_int_equal(bench_row_fret(bench_row_get(ROW_GAP), &board), 1);
    assert_int_equal(bench_row_fret(bench_row_get(ROW_EXPOSURE), &board), 0);
    assert_string_equal(place_words(ROW_ACTION, &fretted, &board), " at fret 14");
    assert_string_equal(place_words(ROW_RELIEF, &fretted, &board), " at fret 7");
    assert_string_equal(place_words(ROW_ACTION, &fretless, &board), " at mark 14");
    assert_string_equal(place_words(ROW_GAP, &fretted, &board), "");
    board.has_relief = false;
    board.action_fret = -1;
    assert_int_equal(bench_row_fret(bench_row_get(ROW_ACTION), &board), 0);
    assert_string_equal(place_words(ROW_ACTION, &fretted, &board), "");
    assert_string_equal(place_words(ROW_RELIEF, &fretted, &board), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_hold_readings_of_a_pass),
        cmocka_unit_test(rows_that_want_something_can_be_judged),
        cmocka_unit_test(rows_go_as_a_tech_measures),
        cmocka_unit_test(rows_are_found_by_what_they_hold),
        cmocka_unit_test(targets_are_spread_over_the_strings),
        cmocka_unit_test(an_empty_record_wants_exposure_alone),
        cmocka_unit_test(frets_are_where_the_board_has_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
