/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_buzz.h"

#include <stdio.h>

#include "near.h"
#include "seeded.h"
#include "survey_record.h"

/*
 * The inverse of the headroom: one fret is made to stand high, the notes that then buzz are
 * what a tech would hear, and from these alone, on the board as measured, the model has to find
 * that fret.
 */

/* Low enough that a fret a few tenths high is heard, high enough that none buzzes before. */
static const char low_action[] = "visit.1.pass.1 action.1 = 4/64 in\n"
                                 "visit.1.pass.1 action.2 = 4.4/64 in\n"
                                 "visit.1.pass.1 action.3 = 4.8/64 in\n"
                                 "visit.1.pass.1 action.4 = 5.2/64 in\n"
                                 "visit.1.pass.1 action.5 = 5.6/64 in\n"
                                 "visit.1.pass.1 action.6 = 6/64 in\n"
                                 "targets touch = soft\n";

static void add_notes(struct strbuf *lines, const char *key, uint64_t notes)
{
    if (notes == 0)
        return;
    strbuf_addf(lines, "visit.1.pass.1 %s.3 =", key);
    for (int n = 0; n <= 19; n++)
        if (notes >> n & 1)
            strbuf_addf(lines, " %d", n);
    strbuf_add(lines, "\n");
}

/* What would be heard on string 3 with that fret so much higher. */
static void listen(int fret, double height_mm, uint64_t *ret_buzz, uint64_t *ret_clean)
{
    struct derived derived;
    struct record record;

    survey_record_build(&record, low_action);
    build_record_put_mm(&record, reading_key_pass_at(FIELD_SPOT, 1, 1, 0, fret), height_mm);
    derive_current(&record, &derived);
    *ret_buzz = *ret_clean = 0;
    for (int n = 0; n < 19; n++) {
        if (assert_given(derived.clearance[3].headroom_mm[n]) < derived.touch.mm[3])
            *ret_buzz |= UINT64_C(1) << n;
        else
            *ret_clean |= UINT64_C(1) << n;
    }
    record_done(&record);
}

static struct survey_buzz survey(const char *more, int string)
{
    struct survey_buzz buzz;
    struct derived derived;
    struct record record;

    survey_record_build(&record, low_action);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    survey_buzz(place_of(&record, 1, 1), &derived, string, &buzz);
    record_done(&record);
    return buzz;
}

static void test_planted_fret_is_found(void **state)
{
    struct seeded seeded = seeded_start("survey_buzz");
    uint64_t buzzing, clean;
    int found = 0;

    (void)state;
    listen(10, 0, &buzzing, &clean);
    assert_true(buzzing == 0);
    for (int round = 0; round < 60; round++) {
        const int fret = seeded_whole(&seeded, 3, 17);
        const double height = seeded_between(&seeded, 0.05, 0.5);
        char memory[400];
        struct strbuf lines = STRBUF(memory);

        listen(fret, height, &buzzing, &clean);
        /* Action is read over fret 12: a high crown there would lift the whole string. */
        if (buzzing == 0 || fret == 12)
            continue;
        add_notes(&lines, "buzz", buzzing);
        add_notes(&lines, "clean", clean);
        const struct survey_buzz buzz = survey(memory, 3);
        assert_true(buzz.heard && buzz.explained);
        assert_true(buzz.buzzing == buzzing && buzz.clean == clean);
        assert_int_equal(buzz.misfit, 0);
        assert_true(buzz.unexplained == 0 && buzz.against == 0);
        /* Another fret may explain few notes as well; this one's height is in the range. */
        if (buzz.high.fret != fret)
            continue;
        found++;
        assert_true(buzz.high.least_mm <= height + 1e-9);
        if (buzz.high.bounded)
            assert_true(buzz.high.most_mm >= height - 1e-9);
        for (int n = 0; n < fret; n++) {
            if (buzzing >> n & 1)
                assert_true(buzz.margin_mm[n] <= height + 1e-9);
            else
                assert_true(buzz.margin_mm[n] >= height - 1e-9);
        }
        assert_near(buzz.margin_mm[buzz.high.least_note], buzz.high.least_mm, 1e-12);
    }
    assert_true(found >= 20);
}

/* A buzz above the fret that explains the others, and a clean note that should not be. */
static void test_witnesses_against(void **state)
{
    const struct survey_buzz buzz = survey("visit.1.pass.1 buzz.3 = 0-4 15\n"
                                           "visit.1.pass.1 clean.3 = 5-14",
                                           3);

    (void)state;
    assert_true(buzz.explained);
    assert_true(buzz.misfit > 0);
    int against = 0;
    for (int n = 0; n <= 19; n++)
        against += (int)((buzz.unexplained | buzz.against) >> n & 1);
    assert_int_equal(against, buzz.misfit);
    assert_true((buzz.unexplained & ~buzz.buzzing) == 0);
    assert_true((buzz.against & ~buzz.clean) == 0);
}

static void test_only_frets_that_exist(void **state)
{
    /* 19 frets: notes beyond are nobody's, and the last one has no fret ahead. */
    const struct survey_buzz beyond = survey("visit.1.pass.1 buzz.3 = 25 30\n"
                                             "visit.1.pass.1 clean.3 = 24",
                                             3);
    const struct survey_buzz last = survey("visit.1.pass.1 buzz.3 = 19", 3);

    (void)state;
    assert_false(beyond.heard || beyond.explained);
    assert_true(beyond.buzzing == 0 && beyond.clean == 0);
    assert_true(last.heard);
    assert_false(last.explained);
}

static void test_absent(void **state)
{
    (void)state;
    assert_false(survey("", 3).heard);
    /* Clean notes alone are no buzz. */
    assert_false(survey("visit.1.pass.1 clean.3 = 0-5", 3).heard);
    assert_false(survey("visit.1.pass.1 buzz.2 = 0-5", 3).heard);

    /* Without a mass there is no tension, and no margin. */
    struct survey_buzz buzz;
    struct derived derived;
    struct record record;
    build_record(&record, build_record_full);
    build_record_add(&record, "visit.1.pass.1 buzz.3 = 2 3");
    derive_current(&record, &derived);
    survey_buzz(place_of(&record, 1, 1), &derived, 3, &buzz);
    assert_true(buzz.heard);
    assert_false(buzz.explained);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_planted_fret_is_found),
        cmocka_unit_test(test_witnesses_against),
        cmocka_unit_test(test_only_frets_that_exist),
        cmocka_unit_test(test_absent),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
