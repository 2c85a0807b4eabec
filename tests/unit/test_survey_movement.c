/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_movement.h"

#include "build_record.h"
#include "model/reading/place.h"
#include "near.h"

/* Moisture contents at 70 F: 40 % 7.7, 65 % 12.0 (Wood Handbook, table 4-2, read in a
 * reprint; the formula agrees with it within 0.052 %). Coefficients of sugar maple: 0.00165
 * radial, 0.00353 tangential (Wood Handbook, table 13-5). */
static const char two_seasons[] = "board wood = sugar maple\n"
                                  "board width_nut = 44 mm\n"
                                  "board width_join = 54 mm\n"
                                  "neck wood = mahogany\n"
                                  "visit.1 temperature = 70 F\n"
                                  "visit.1 humidity = 40\n"
                                  "visit.2 temperature = 70 F\n"
                                  "visit.2 humidity = 65\n";

static void test_two_seasons(void **state)
{
    struct survey_movement movement = {.visit = 0};
    struct record record;

    (void)state;
    build_record(&record, two_seasons);
    assert_true(survey_movement_next(&record, &movement));
    assert_int_equal(movement.visit, 1);
    assert_int_equal(movement.since, 0);
    assert_near(movement.emc_pct, 7.7, 0.052);
    assert_false(movement.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][WOOD_RADIAL].given);

    assert_true(survey_movement_next(&record, &movement));
    assert_int_equal(movement.visit, 2);
    assert_int_equal(movement.since, 1);
    assert_near(movement.emc_pct, 12.0, 0.052);
    assert_near(movement.emc_change_pct, 4.3, 0.104);
    /* 44 mm x 0.00353 x 4.3 = 0.67 mm, 54 mm x 0.00165 x 4.3 = 0.38 mm. */
    assert_near(movement.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][WOOD_TANGENTIAL].value,
                44 * 0.00353 * 4.3, 0.017);
    assert_near(movement.mm[MOVEMENT_BOARD][MOVEMENT_AT_JOIN][WOOD_RADIAL].value,
                54 * 0.00165 * 4.3, 0.010);
    assert_near_relative(movement.mm[MOVEMENT_NECK][MOVEMENT_AT_NUT][WOOD_TANGENTIAL].value /
                             movement.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][WOOD_TANGENTIAL].value,
                         0.00238 / 0.00353, 1e-9);
    assert_false(survey_movement_next(&record, &movement));
    assert_int_equal(movement.visit, 2);
    record_done(&record);
}

/* Dry again as in the first visit: what swelled shrinks by the same, whatever lies between. */
static void test_back_again(void **state)
{
    struct survey_movement there = {.visit = 0}, back;
    struct record record;

    (void)state;
    build_record(&record, two_seasons);
    build_record_add(&record, "visit.3 humidity = 50\n" /* no temperature: no climate */
                              "visit.7 temperature = 70 F\n"
                              "visit.7 humidity = 40\n");
    assert_true(survey_movement_next(&record, &there));
    assert_true(survey_movement_next(&record, &there));
    back = there;
    assert_true(survey_movement_next(&record, &back));
    assert_int_equal(back.visit, 7);
    assert_int_equal(back.since, 2);
    for (int part = 0; part < MOVEMENT_PARTS_; part++)
        for (int place = 0; place < MOVEMENT_PLACES_; place++)
            for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++)
                assert_near(there.mm[part][place][grain].value + back.mm[part][place][grain].value,
                            0, 1e-12);
    assert_false(survey_movement_next(&record, &back));

    struct survey_movement one;
    assert_true(survey_movement_of(&record, 7, &one));
    assert_int_equal(one.visit, 7);
    assert_int_equal(one.since, 2);
    assert_near(one.emc_change_pct, back.emc_change_pct, 0);
    assert_near(one.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][WOOD_RADIAL].value,
                back.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][WOOD_RADIAL].value, 0);
    assert_near(one.u_mm[MOVEMENT_NECK][MOVEMENT_AT_JOIN][WOOD_TANGENTIAL].value,
                back.u_mm[MOVEMENT_NECK][MOVEMENT_AT_JOIN][WOOD_TANGENTIAL].value, 0);
    for (int visit = 0; visit < 12; visit++)
        assert_int_equal(survey_movement_of(&record, visit, &one), visit == 2 || visit == 7);
    record_done(&record);
}

static void test_absent(void **state)
{
    struct survey_movement movement = {.visit = 0};
    struct record record;

    (void)state;
    build_record(&record, two_seasons);
    build_record_add(&record, "board wood = driftwood");
    build_record_drop(&record, "board width_join");
    assert_true(survey_movement_next(&record, &movement));
    assert_true(survey_movement_next(&record, &movement));
    for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++) {
        assert_false(movement.mm[MOVEMENT_BOARD][MOVEMENT_AT_NUT][grain].given);
        assert_true(movement.mm[MOVEMENT_NECK][MOVEMENT_AT_NUT][grain].given);
        assert_false(movement.mm[MOVEMENT_NECK][MOVEMENT_AT_JOIN][grain].given);
    }
    record_done(&record);

    movement = (struct survey_movement){.visit = 0};
    build_record(&record, build_record_full);
    assert_false(survey_movement_next(&record, &movement));
    record_done(&record);
    build_record(&record, "");
    assert_false(survey_movement_next(&record, &movement));
    record_done(&record);
}

/* Visits and passes are met in order, once, also where numbers are left out. */
static void test_walk(void **state)
{
    static const int visits[] = {1, 4, 9999}, passes[][2] = {{1, 2}, {1, 999}, {9999, 1}};
    struct record record;
    int visit = 0;

    (void)state;
    build_record(&record, "board scale = 25 in\n"
                          "visit.1.pass.2 relief = .010 in\n"
                          "visit.1.pass.999 relief = .010 in\n"
                          "visit.1.work.9999 kind = nut\n"
                          "visit.4 humidity = 50\n"
                          "visit.4.work.1 kind = nut\n"
                          "visit.9999.pass.1 note = last\n");
    for (int i = 0; i < 3; i++) {
        assert_true(record_next_visit(&record, &visit));
        assert_int_equal(visit, visits[i]);
    }
    assert_false(record_next_visit(&record, &visit));
    assert_int_equal(visit, 9999);
    struct place place = place_of(&record, 0, 0);
    for (int i = 0; i < 3; i++) {
        assert_true(place_next(&place));
        assert_int_equal(place.visit, passes[i][0]);
        assert_int_equal(place.pass, passes[i][1]);
    }
    assert_false(place_next(&place));
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two_seasons),
        cmocka_unit_test(test_back_again),
        cmocka_unit_test(test_absent),
        cmocka_unit_test(test_walk),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
