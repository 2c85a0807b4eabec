/* SPDX-License-Identifier: MIT */
#include "model/survey/next_check.h"

#include <math.h>
#include <string.h>

#include "build_record.h"
#include "near.h"
#include "words/next_check_words.h"

/* Moisture at 70 F (21.1 C): 30 % humidity 6.2, 40 % 7.7, 50 % 9.2, 60 % 11.0 (Wood Handbook,
 * FPL-GTR-282, table 4-2, printed to 0.1 %). */
#define SHOP "visit.1 date = 2026-03-02\nvisit.1 temperature = 70 F\nvisit.1 humidity = 50\n"

static struct next_check check_of(const char *lines, int visit)
{
    struct record record;
    struct next_check check;

    build_record(&record, lines);
    next_check_find(&record, visit, &check);
    record_done(&record);
    return check;
}

static const char *words_of(const struct next_check *check)
{
    static char memory[200];
    struct strbuf text = STRBUF(memory);

    next_check_words_when(check, &text);
    strbuf_add(&text, ": ");
    next_check_words_why(check, &text);
    assert_false(text.truncated);
    return memory;
}

static void what_is_not_known_has_no_day(void **state)
{
    const struct next_check shop = check_of("instrument home_humidity_low = 30\n"
                                            "visit.1 date = 2026-03-02\n",
                                            1);
    (void)state;
    assert_string_equal(words_of(&shop), "not known yet: the air in the shop was not read");
    const struct next_check home = check_of(SHOP, 1);

    assert_string_equal(words_of(&home), "not known yet: the air of its home is not on file");
    assert_false(shop.known || home.known || shop.day_number.given || home.day_number.given);
}

/* 45 and 55 % are within 2 % of moisture of 50 %. */
static void air_like_the_shop_s_gives_a_year(void **state)
{
    const struct next_check check =
        check_of(SHOP "instrument home_humidity_low = 45\ninstrument home_humidity_high = 55\n", 1);

    (void)state;
    assert_string_equal(words_of(&check), "in a year: the air of its home is like the shop's");
    const struct day day = day_of_number((int)assert_given(check.day_number));

    assert_true(day.year == 2027 && day.month == 3 && day.day == 2);
}

/*
 * By hand, 21 mm deep and of no width: tau = 1.7 x 21^2/(pi^2 x 3e-5) = 2.53e6 s = 29.3 days; to
 * the last twentieth of (8/pi^2)^2 = 0.657 it takes ln(0.657/0.05) = 2.576 of them, 75.5 days. The
 * logarithm is known to 2 sqrt(0.3^2 + 0.27^2 + (2 x 0.06)^2) = 0.842: by 2.32 either way.
 */
static void wood_takes_its_weeks(void **state)
{
    const struct next_check check = check_of(SHOP "instrument home_humidity_low = 30\n"
                                                  "instrument home_humidity_high = 55\n",
                                             1);

    (void)state;
    assert_int_equal(check.reason, NEXT_CHECK_SETTLES);
    assert_near(check.days, 75.5, 0.1);
    assert_near(check.least_days, 75.5 / 2.32, 0.2);
    assert_near(check.most_days, 75.5 * 2.32, 0.6);
    assert_near(check.far_pct.value, 6.2, 0.06);
    assert_string_equal(words_of(&check),
                        "in about 11 weeks (5 to 25): by then its wood goes from 9.2 % to 6.2 % "
                        "moisture in the driest air where it lives");
    const struct next_check thin =
        check_of(SHOP "instrument home_humidity_high = 75\nboard thickness = 5 mm\n"
                      "neck shaft_first = 5.5 mm\n",
                 1);

    /* Half as deep, a quarter of the time. */
    assert_near_relative(thin.days, check.days / 4, 1e-9);
    assert_non_null(strstr(words_of(&thin), "in the dampest air where it lives"));
}

/* Relief that moved by less than .001 in for 4 % of moisture stays within its tolerance. */
/* In the shop it stays in the shop's air: the days begin when it leaves. */
static void it_counts_from_when_it_went_home(void **state)
{
    static const struct {
        const char *more;
        int month, day;
    } ends[] = {{"visit.1.pass.1 time = 10:00\n", 3, 2},
                {"visit.1.pass.2 time = 2026-03-20T16:00\n", 3, 20},
                {"visit.1.work.1 time = 2026-03-24T11:00\n", 3, 24},
                {"visit.1 handed_over = 2026-04-08\n", 4, 8}};
    struct record record;

    (void)state;
    build_record(&record, SHOP "instrument home_humidity_low = 45\n");
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        struct next_check check;

        build_record_add(&record, ends[i].more);
        next_check_find(&record, 1, &check);
        const struct day day = day_of_number((int)assert_given(check.day_number));
        assert_true(day.year == 2027 && day.month == ends[i].month && day.day == ends[i].day);
    }
    record_done(&record);
}

/* Asked from an earlier visit: the air of its home is what the visit filed. */
static void it_is_answered_by_its_own_visit(void **state)
{
    struct record record;
    struct next_check check;

    (void)state;
    build_record(&record, SHOP "instrument home_humidity_low = 30\n"
                               "visit.2 date = 2026-04-02\nvisit.2 temperature = 70 F\n"
                               "visit.2 humidity = 50\n"
                               "visit.2.instrument home_humidity_low = 45\n");
    const struct record first = record_as_of(&record, 1);
    next_check_find(&first, 2, &check);
    assert_int_equal(check.reason, NEXT_CHECK_LIKE_SHOP);
    next_check_find(&record, 1, &check);
    assert_int_equal(check.reason, NEXT_CHECK_SETTLES);
    record_done(&record);
}

static void a_steady_neck_is_left_a_year(void **state)
{
    static const char visits[] = "instrument home_humidity_low = 30\n"
                                 "visit.1 temperature = 70 F\nvisit.1 humidity = 40\n"
                                 "visit.1.pass.1 relief = 0.20 mm\n"
                                 "visit.2 temperature = 70 F\nvisit.2 humidity = 60\n"
                                 "visit.2.pass.1 relief = 0.21 mm\n";
    struct record record;
    struct next_check check;

    (void)state;
    build_record(&record, visits);
    next_check_find(&record, 2, &check);
    assert_string_equal(words_of(&check), "in a year: its relief hardly follows the air");
    build_record_add(&record, "visit.2.pass.1 relief = 0.35 mm\n");
    next_check_find(&record, 2, &check);
    assert_int_equal(check.reason, NEXT_CHECK_SETTLES);
    assert_near(assert_given(check.relief_change_mm), -0.15 * 4.8 / 3.3, 0.02);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_not_known_has_no_day),
        cmocka_unit_test(air_like_the_shop_s_gives_a_year),
        cmocka_unit_test(wood_takes_its_weeks),
        cmocka_unit_test(it_counts_from_when_it_went_home),
        cmocka_unit_test(it_is_answered_by_its_own_visit),
        cmocka_unit_test(a_steady_neck_is_left_a_year),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
