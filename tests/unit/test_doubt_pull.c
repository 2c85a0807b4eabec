/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>

#include "build_record.h"
#include "model/doubt/doubt_pull.h"
#include "model/survey/survey_what_if.h"

/* The scales are common practice, long ones among them. */
static const struct instrument {
    const char *kind, *scale, *tuning, *set;
    bool heaviest; /* the usual pull is that of this set on this scale */
} usual[] = {
    {"steel-string", "25.34 in", "guitar-standard", "steel-medium", true},
    {"steel-string", "27 in", "guitar-standard", "steel-medium", false},
    {"steel-string", "25.5 in", "guitar-twelve", "steel-twelve-light", false},
    {"resonator", "25 in", "guitar-open-g", "steel-medium", false},
    {"archtop", "25 in", "guitar-standard", "steel-medium", true},
    {"electric", "25.5 in", "guitar-standard", "electric-medium", true},
    {"electric", "26.5 in", "guitar-seven", "electric-seven-regular", false},
    {"classical", "650 mm", "guitar-standard", "classical-high", true},
    {"classical", "664 mm", "guitar-standard", "classical-high", false},
    {"bass", "34 in", "bass-four", "bass-long-medium", true},
    {"bass", "35 in", "bass-five", "bass-five-long-medium", false},
    {"mandolin", "13.875 in", "mandolin", "mandolin-medium", true},
    {"banjo", "26.25 in", "banjo-open-g", "banjo-five-medium", true},
    {"ukulele", "15 in", "ukulele-c", "ukulele-concert", false},
    {"ukulele", "17 in", "ukulele-c", "ukulele-concert", false},
};

static void make(const struct instrument *instrument, struct record *ret_record,
                 struct what_if_change *ret_change)
{
    const struct tuning *tuning;
    char lines[200];

    *ret_change = (struct what_if_change){.has_notes = true, .has_set = true};
    assert_int_equal(tuning_find(instrument->tuning, &tuning), STATUS_OK);
    assert_int_equal(tuning_read_notes(tuning->notes, &ret_change->notes), STATUS_OK);
    assert_int_equal(string_set_find(instrument->set, &ret_change->set), STATUS_OK);
    snprintf(lines, sizeof lines,
             "instrument kind = %s\nboard scale = %s\nboard strings = %d\nboard frets = 20\n",
             instrument->kind, instrument->scale, ret_change->notes.strings);
    build_record(ret_record, lines);
}

/* The total, and whether it is in doubt. */
static double ask(const struct record *record, const struct what_if_change *change, bool *ret_far)
{
    struct survey_what_if what_if;
    struct findings findings = {.count = 0};
    struct derived derived;

    derive_current(record, &derived);
    assert_int_equal(survey_what_if(record, &derived, change, &what_if, &findings), STATUS_OK);
    assert_true(what_if.total_after_n.given);
    *ret_far = false;
    for (int i = 0; i < findings.count; i++)
        *ret_far |= findings.list[i].id == FINDING_TOTAL_UNUSUAL;
    return what_if.total_after_n.value;
}

static void usual_strings_are_not_doubted(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
        struct what_if_change change;
        struct record record;
        bool far;

        make(&usual[i], &record, &change);
        const double total_n = ask(&record, &change, &far);
        if (far)
            fail_msg("%s, %s: %.0f N is doubted", usual[i].kind, usual[i].set, total_n);
        if (usual[i].heaviest)
            assert_near_relative(doubt_pull_usual(&record).value, total_n, 0.03);
        record_done(&record);
    }
}

/* Heavy strings a fifth up pull 2.2 times as much, on any kind. */
static void strings_a_fifth_too_high_are(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
        struct what_if_change change;
        struct record record;
        bool far;

        make(&usual[i], &record, &change);
        change.shift_semitones = 7;
        (void)ask(&record, &change, &far);
        if (!far)
            fail_msg("%s, %s, a fifth up: not doubted", usual[i].kind, usual[i].set);
        record_done(&record);
    }
}

static void what_is_not_known_is_not_judged(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, "board strings = 6\n");
    assert_false(doubt_pull_is_far(&record, 1e6));
    build_record_add(&record, "instrument kind = other\n");
    assert_false(doubt_pull_is_far(&record, 1e6));
    build_record_add(&record, "instrument kind = bass\n");
    assert_true(doubt_pull_is_far(&record, 1e6));
    assert_false(doubt_pull_is_far(&record, (double)NAN));
    /* Six strings of a bass pull half as much again as four. */
    assert_near(doubt_pull_usual(&record).value, 811 * 1.5, 1e-9);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(usual_strings_are_not_doubted),
        cmocka_unit_test(strings_a_fifth_too_high_are),
        cmocka_unit_test(what_is_not_known_is_not_judged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
