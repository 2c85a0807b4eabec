/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_what_if.h"

#include <math.h>
#include <string.h>

#include "model/strings/pitch.h"
#include "near.h"
#include "survey_record.h"

static void check_name(const char *name)
{
    assert_true(strlen(name) > 0 && strspn(name, "abcdefghijklmnopqrstuvwxyz-") == strlen(name));
}

/* Every tuning reads, and says where it comes from; names are found by themselves only. */
static void test_tunings_are_whole(void **state)
{
    (void)state;
    assert_true(tuning_count() >= 20);
    assert_null(tuning_get(tuning_count()));
    assert_null(tuning_get(-1));
    for (int k = 0; k < tuning_count(); k++) {
        const struct tuning *tuning = tuning_get(k), *found = NULL;
        struct string_notes notes;

        check_name(tuning->name);
        assert_true(strlen(tuning->source) > 0);
        assert_int_equal(tuning_read_notes(tuning->notes, &notes), STATUS_OK);
        assert_in_range(notes.strings, 4, STRINGS_MAX);
        assert_int_equal(tuning_find(tuning->name, &found), STATUS_OK);
        assert_ptr_equal(found, tuning);
    }
}

/* Bass side first: the guitar's string 6 is E2, its string 1 E4 (common practice). */
static void test_order_of_notes(void **state)
{
    static const int standard[] = {0, 64, 59, 55, 50, 45, 40};
    const struct tuning *tuning = NULL;
    struct string_notes notes;

    (void)state;
    assert_int_equal(tuning_find(" Guitar Standard ", &tuning), STATUS_OK);
    assert_int_equal(tuning_read_notes(tuning->notes, &notes), STATUS_OK);
    assert_int_equal(notes.strings, 6);
    for (int s = 1; s <= 6; s++)
        assert_int_equal(notes.semitone[s], standard[s]);
    /* The five-string banjo's short string 5 sounds above string 1. */
    assert_int_equal(tuning_find("banjo-open-g", &tuning), STATUS_OK);
    assert_int_equal(tuning_read_notes(tuning->notes, &notes), STATUS_OK);
    assert_true(notes.semitone[5] > notes.semitone[1]);
}

static void test_notes_refused(void **state)
{
    struct string_notes notes = {.strings = 77};
    const struct tuning *tuning = NULL;

    (void)state;
    assert_int_equal(tuning_read_notes("", &notes), STATUS_ABSENT);
    assert_int_equal(tuning_read_notes(" \t ", &notes), STATUS_ABSENT);
    assert_int_equal(tuning_read_notes("E2 H2", &notes), STATUS_SYNTAX);
    assert_int_equal(tuning_read_notes("E2,A2", &notes), STATUS_SYNTAX);
    assert_int_equal(tuning_read_notes("E2 A2222222222222222222", &notes), STATUS_SYNTAX);
    assert_int_equal(tuning_read_notes("Cb0", &notes), STATUS_RANGE);
    assert_int_equal(tuning_read_notes("E1 E1 E1 E1 E1 E1 E1 E1 E1 E1 E1 E1 E1", &notes),
                     STATUS_TOO_LONG);
    assert_int_equal(notes.strings, 77);
    assert_int_equal(tuning_read_notes("  B\u266d1\tF#3 ", &notes), STATUS_OK);
    assert_int_equal(notes.strings, 2);
    assert_int_equal(notes.semitone[2], 34);
    assert_int_equal(notes.semitone[1], 54);
    assert_int_equal(tuning_find("guitar", &tuning), STATUS_NOT_FOUND);
    assert_int_equal(tuning_find("", &tuning), STATUS_NOT_FOUND);
}

static double mass_of(const struct string_of_set *string)
{
    const struct mass_sources sources = {.length_mm = 650,
                                         .hz = 196,
                                         .entered_kg_per_m = string->mass_kg_per_m,
                                         .build = &string->build};
    struct unit_mass mass;

    assert_int_equal(tension_find_mass(&sources, &mass), STATUS_OK);
    return mass.kg_per_m;
}

static void test_sets_are_whole(void **state)
{
    struct string_set set = {.strings = 0}, found;
    int sets = 0;

    (void)state;
    while (string_set_next(&set)) {
        sets++;
        check_name(set.name);
        assert_in_range(set.strings, 4, STRINGS_MAX);
        for (int i = 0; i < set.strings; i++) {
            const struct string_of_set *string = &set.string[i];

            assert_int_equal(string->string, i + 1);
            assert_true(strlen(string->source) > 0);
            assert_true(mass_of(string) > 0);
            /* A core, where there is one, is thinner than the string. */
            assert_true(string->build.core_mm < string->build.gauge_mm);
        }
        assert_int_equal(string_set_find(set.name, &found), STATUS_OK);
        assert_ptr_equal(found.string, set.string);
    }
    assert_true(sets >= 12);
    assert_int_equal(string_set_find("steel", &found), STATUS_NOT_FOUND);
}

/* Total pulls that sets of these families have at their scale, in pounds (labels, from
 * memory; makes differ by about 5 %). */
static void test_usual_totals(void **state)
{
    static const struct {
        const char *set, *tuning;
        double scale_in, pounds;
    } usual[] = {
        {"steel-extra-light", "guitar-standard", 25.5, 133},
        {"steel-light", "guitar-standard", 25.5, 163},
        {"steel-medium", "guitar-standard", 25.5, 185},
        {"electric-light", "guitar-standard", 25.5, 85},
        {"electric-regular", "guitar-standard", 25.5, 103},
        {"electric-medium", "guitar-standard", 25.5, 118},
        {"classical-normal", "guitar-standard", 25.6, 85},
        {"classical-high", "guitar-standard", 25.6, 90},
        {"bass-long-medium", "bass-four", 34, 180},
        {"mandolin-medium", "mandolin", 13.875, 190},
    };

    (void)state;
    for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
        const struct tuning *tuning;
        struct string_notes notes;
        struct string_set set;
        double total = 0;

        assert_int_equal(string_set_find(usual[i].set, &set), STATUS_OK);
        assert_int_equal(tuning_find(usual[i].tuning, &tuning), STATUS_OK);
        assert_int_equal(tuning_read_notes(tuning->notes, &notes), STATUS_OK);
        assert_int_equal(notes.strings, set.strings);
        for (int s = 1; s <= set.strings; s++) {
            double hz, tension;

            assert_int_equal(pitch_frequency(notes.semitone[s], 440, &hz), STATUS_OK);
            assert_int_equal(tension_from_pitch(mass_of(&set.string[s - 1]),
                                                usual[i].scale_in * 25.4, hz, &tension),
                             STATUS_OK);
            total += tension;
        }
        assert_near_relative(total / 4.4482216152605, usual[i].pounds, 0.07);
    }
}

/* The neck of the worked example, so that the pull bends something. */
static const char neck[] = "board width_nut = 45 mm\n"
                           "board width_join = 55 mm\n"
                           "board thickness = 6 mm\n"
                           "board crown_height = 1.1 mm\n"
                           "board modulus = 13000\n"
                           "neck shaft_first = 14 mm\n"
                           "neck shaft_heel = 16 mm\n"
                           "neck slot_width = 6.35 mm\n"
                           "neck slot_depth = 11 mm\n"
                           "neck modulus = 10300\n";

static struct survey_what_if ask(const char *more, const struct what_if_change *change,
                                 struct derived *ret_derived, struct findings *findings)
{
    struct survey_what_if what_if;
    struct record record;

    survey_record_build(&record, neck);
    build_record_add(&record, more);
    derive_current(&record, ret_derived);
    *findings = (struct findings){.count = 0};
    assert_int_equal(survey_what_if(&record, ret_derived, change, &what_if, findings), STATUS_OK);
    record_done(&record);
    return what_if;
}

/* Mersenne: a semitone is 2^(1/12) in pitch and its square in pull; an octave down a quarter. */
static void test_shift(void **state)
{
    static const double octave_down[] = {0, 52, 47, 43, 38, 33, 28};
    struct derived derived;
    struct findings findings;
    struct what_if_change change = {.shift_semitones = -12};
    struct survey_what_if what_if = ask("", &change, &derived, &findings);

    (void)state;
    for (int s = 1; s <= 6; s++) {
        assert_near_relative(what_if.string[s].after_n.value, what_if.string[s].before_n.value / 4,
                             1e-12);
        assert_near(what_if.string[s].semitone.value, octave_down[s], 0);
    }
    assert_near_relative(what_if.total_after_n.value, what_if.total_before_n.value / 4, 1e-12);
    change.shift_semitones = -1;
    what_if = ask("", &change, &derived, &findings);
    assert_near_relative(what_if.total_after_n.value / what_if.total_before_n.value,
                         pow(2, -1.0 / 6), 1e-12);
    /* Another pitch standard is no other tuning. */
    change.shift_semitones = 0;
    what_if = ask("model a4 = 432", &change, &derived, &findings);
    assert_near_relative(what_if.total_after_n.value, what_if.total_before_n.value, 1e-12);
}

static void test_drop_d(void **state)
{
    struct what_if_change change = {.has_notes = true};
    struct derived derived;
    struct findings findings;
    const struct tuning *tuning;
    double shares = 0;

    (void)state;
    assert_int_equal(tuning_find("guitar-drop-d", &tuning), STATUS_OK);
    assert_int_equal(tuning_read_notes(tuning->notes, &change.notes), STATUS_OK);
    const struct survey_what_if what_if = ask("", &change, &derived, &findings);
    for (int s = 1; s <= 6; s++) {
        assert_near_relative(what_if.string[s].after_n.value,
                             what_if.string[s].before_n.value * (s == 6 ? pow(2, -1.0 / 3) : 1),
                             1e-12);
        shares += what_if.string[s].share_of_total.value;
    }
    assert_near(shares, 1, 1e-12);
    assert_int_equal(findings.count, 0);
}

/* The pull's own relief goes with the pull, and the relief read moves by as much. */
static void test_relief(void **state)
{
    const struct what_if_change change = {.shift_semitones = -2};
    struct derived derived;
    struct findings findings;
    const struct survey_what_if what_if = ask("", &change, &derived, &findings);
    const double ratio = pow(2, -1.0 / 3);
    const double predicted =
        assert_given(figures_get(&derived.figures, FIGURE_RELIEF_PREDICTED, 0));

    (void)state;
    assert_near(what_if.relief_predicted_before_mm.value, predicted, 0);
    assert_near_relative(what_if.relief_predicted_after_mm.value, predicted * ratio, 1e-12);
    assert_near(what_if.pull.relief_mm.value, 0.013 * 25.4 + predicted * (ratio - 1), 1e-9);
}

/* A set one gauge heavier lets 0.05 to 0.1 mm (.002 to .004 in) into a steel-string's neck, the
 * same strings a tone down take out about as much, and the action moves by the like at fret 12:
 * common practice, no published source. Nothing was measured on the neck. */
static void test_relief_without_a_measure(void **state)
{
    struct what_if_change change = {.has_set = true};
    struct record record;
    struct derived derived;
    struct findings findings = {.count = 0};
    struct survey_what_if what_if;

    (void)state;
    assert_int_equal(string_set_find("steel-medium", &change.set), STATUS_OK);
    survey_record_build(&record, "instrument kind = steel-string\n");
    derive_current(&record, &derived);
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings), STATUS_OK);
    assert_true(what_if.pull.by_kind);

    const double more = assert_given(what_if.pull.bend_change_mm);
    const double action = assert_given(what_if.pull.action_mm[6]) -
                          assert_given(figures_get(&derived.figures, FIGURE_ACTION, 6));

    assert_true(more > 0.04 && more < 0.12);
    assert_true(assert_given(what_if.pull.relief_u_mm) > more / 3);
    assert_near_relative(action, 2 * more, 0.2);
    assert_true(assert_given(what_if.pull.action_u_mm[6]) > action / 3);
    assert_int_equal(survey_what_if(&record, &derived,
                                    &(struct what_if_change){.shift_semitones = -2}, &what_if,
                                    &findings),
                     STATUS_OK);
    assert_true(assert_given(what_if.pull.bend_change_mm) < -0.04);
    record_done(&record);
}

/* 2^(1/6) is 1.12, 2^(1/3) is 1.26: one semitone up is let pass, two are not. */
static void test_far_above(void **state)
{
    struct what_if_change change = {.shift_semitones = 1};
    struct derived derived;
    struct findings findings;

    (void)state;
    (void)ask("", &change, &derived, &findings);
    assert_false(survey_record_found(&findings, FINDING_TOTAL_FAR_ABOVE, 0));
    change.shift_semitones = 2;
    (void)ask("", &change, &derived, &findings);
    assert_true(survey_record_found(&findings, FINDING_TOTAL_FAR_ABOVE, 0));
    change.shift_semitones = -2;
    (void)ask("", &change, &derived, &findings);
    assert_int_equal(findings.count, 0);
}

/* A plain string's share of its strength does not depend on its gauge much: near E4 at 0.5 on
 * this scale, five semitones up it is over 0.85 (ASTM A228 by Shigley, Table 10-4). */
static void test_near_strength(void **state)
{
    const struct what_if_change change = {.shift_semitones = 5};
    struct derived derived;
    struct findings findings;
    const struct survey_what_if what_if = ask("", &change, &derived, &findings);

    (void)state;
    assert_near(what_if.string[1].stress_share.value, 0.52 * pow(2, 5.0 / 6), 0.02);
    assert_true(survey_record_found(&findings, FINDING_STRING_NEAR_BREAK, 1));
    assert_false(survey_record_found(&findings, FINDING_STRING_NEAR_BREAK, 2));
}

/* The record's strings are the light set's: changing to it changes nothing. */
static void test_same_set(void **state)
{
    struct what_if_change change = {.has_set = true};
    struct derived derived;
    struct findings findings;

    (void)state;
    assert_int_equal(string_set_find("steel-light", &change.set), STATUS_OK);
    struct survey_what_if what_if = ask("", &change, &derived, &findings);
    for (int s = 1; s <= 6; s++) {
        assert_near_relative(what_if.string[s].after_n.value, what_if.string[s].before_n.value,
                             1e-12);
        assert_near_relative(what_if.string[s].stress_share.value,
                             derived.figures.at[FIGURE_STRESS_SHARE][s].value, 1e-12);
    }
    assert_int_equal(string_set_find("steel-medium", &change.set), STATUS_OK);
    what_if = ask("", &change, &derived, &findings);
    for (int s = 1; s <= 6; s++)
        assert_true(what_if.string[s].after_n.value > what_if.string[s].before_n.value);
    /* Nylon has no strength in the table: absent, not zero. */
    assert_int_equal(string_set_find("classical-normal", &change.set), STATUS_OK);
    what_if = ask("", &change, &derived, &findings);
    assert_false(what_if.string[1].stress_share.given);
    assert_true(what_if.total_after_n.value < what_if.total_before_n.value);
}

static void test_absent(void **state)
{
    struct what_if_change change = {.has_set = true};
    struct survey_what_if what_if;
    struct findings findings = {.count = 0};
    struct derived derived;
    struct record record;

    (void)state;
    assert_int_equal(string_set_find("steel-light", &change.set), STATUS_OK);
    survey_record_build(&record, neck);
    build_record_drop(&record, "string.4 gauge");
    derive_current(&record, &derived);
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings), STATUS_OK);
    assert_false(what_if.string[4].before_n.given || what_if.total_before_n.given);
    assert_true(what_if.string[4].after_n.given && what_if.total_after_n.given);
    assert_false(what_if.relief_predicted_after_mm.given || what_if.pull.relief_mm.given);

    build_record_drop(&record, "string.2 note");
    derive_current(&record, &derived);
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings), STATUS_OK);
    assert_false(what_if.string[2].semitone.given || what_if.string[2].after_n.given ||
                 what_if.string[2].stress_share.given || what_if.total_after_n.given);
    assert_false(what_if.string[1].share_of_total.given);
    record_done(&record);
}

static void test_refused(void **state)
{
    struct what_if_change change = {.has_notes = true};
    struct survey_what_if what_if = {.strings = 77};
    struct findings findings = {.count = 0};
    struct derived derived;
    struct record record;

    (void)state;
    survey_record_derive(&record, "", &derived);
    assert_int_equal(tuning_read_notes("E1 A1 D2 G2", &change.notes), STATUS_OK);
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings),
                     STATUS_DOMAIN);
    change = (struct what_if_change){.has_set = true};
    assert_int_equal(string_set_find("bass-long-light", &change.set), STATUS_OK);
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings),
                     STATUS_DOMAIN);
    change = (struct what_if_change){.shift_semitones = 24.5};
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings),
                     STATUS_DOMAIN);
    change.shift_semitones = (double)NAN;
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings),
                     STATUS_DOMAIN);
    record_done(&record);
    build_record(&record, "");
    derive_current(&record, &derived);
    change.shift_semitones = 0;
    assert_int_equal(survey_what_if(&record, &derived, &change, &what_if, &findings),
                     STATUS_ABSENT);
    assert_int_equal(what_if.strings, 77);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tunings_are_whole),
        cmocka_unit_test(test_order_of_notes),
        cmocka_unit_test(test_notes_refused),
        cmocka_unit_test(test_sets_are_whole),
        cmocka_unit_test(test_usual_totals),
        cmocka_unit_test(test_shift),
        cmocka_unit_test(test_drop_d),
        cmocka_unit_test(test_relief),
        cmocka_unit_test(test_relief_without_a_measure),
        cmocka_unit_test(test_far_above),
        cmocka_unit_test(test_near_strength),
        cmocka_unit_test(test_same_set),
        cmocka_unit_test(test_absent),
        cmocka_unit_test(test_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
