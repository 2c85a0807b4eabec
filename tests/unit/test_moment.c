/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "model/reading/moment.h"
#include "build_record.h"

static double days(const char *date, const char *time)
{
    return assert_given(moment_find(date, time));
}

/* Day numbers from the Julian day table: 1970-01-01 is JD 2440587.5 and 2000-01-01
 * JD 2451544.5 (Meeus, Astronomical Algorithms, 2nd edition, chapter 7). */
static void days_are_counted_as_the_calendar_does(void **state)
{
    (void)state;
    assert_near(days("2000-01-01", NULL) - days("1970-01-01", NULL), 2451544.5 - 2440587.5, 0);
    assert_near(days("2000-03-01", NULL) - days("2000-02-28", NULL), 2, 0);
    assert_near(days("2100-03-01", NULL) - days("2100-02-28", NULL), 1, 0);
    assert_near(days("2024-01-01", NULL) - days("2023-12-31", NULL), 1, 0);
}

static void a_time_is_a_part_of_its_day(void **state)
{
    (void)state;
    assert_near(days("2026-03-02", "12:00") - days("2026-03-02", NULL), 0.5, 1e-9);
    assert_near(days("2026-03-02", "00:00:01") - days("2026-03-02", NULL), 1.0 / 86400, 1e-9);
    assert_near(days("2026-03-02", "2026-03-04T06:00") - days("2026-03-02", NULL), 2.25, 1e-9);
    assert_near(days(NULL, "2026-03-04T06:00") - days("2026-03-04", NULL), 0.25, 1e-9);
}

static void what_is_no_moment_is_refused(void **state)
{
    static const char *const texts[][2] = {{NULL, NULL},         {"", NULL},
                                           {"2026-3-2", NULL},   {"2026-13-01", NULL},
                                           {"2026-03", NULL},    {"2026-03-02", "noon"},
                                           {"2026-03-02", "1:"}, {NULL, "10:42"}};

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_false(moment_find(texts[i][0], texts[i][1]).given);
}

static void a_pass_without_a_time_is_of_its_day(void **state)
{
    struct reading_key pass = reading_key_pass(FIELD_PASS_TIME, 1, 1);
    struct reading_key work = {.field = FIELD_WORK_TIME, .visit = 1, .part = 1};
    struct record record;

    (void)state;
    build_record(&record, "visit.1 date = 2026-03-02\nvisit.1.work.2 time = 09:00\n");
    assert_near(assert_given(moment_of(&record, &pass)), days("2026-03-02", NULL), 0);
    assert_false(moment_of(&record, &work).given);
    work.part = 2;
    assert_near(assert_given(moment_of(&record, &work)), days("2026-03-02", "09:00"), 0);
    pass.visit = 2;
    assert_false(moment_of(&record, &pass).given);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_are_counted_as_the_calendar_does),
        cmocka_unit_test(a_time_is_a_part_of_its_day),
        cmocka_unit_test(what_is_no_moment_is_refused),
        cmocka_unit_test(a_pass_without_a_time_is_of_its_day),
    };
    return cmocka_run_group_tests_name("moment", tests, NULL, NULL) ? 1 : 0;
}
