/* SPDX-License-Identifier: MIT */
#include "near.h"
#include "seeded.h"

#include <math.h>
#include <string.h>

#include "model/strings/pitch.h"

static void check_parse(const char *text, int want)
{
    int got = -1;

    if (pitch_parse(text, &got) != STATUS_OK || got != want)
        fail_msg("%s: got %d, want %d", text, got, want);
}

static void test_notes_are_read(void **state)
{
    (void)state;
    check_parse("A4", 69);
    check_parse("E2", 40);
    check_parse("F#3", 54);
    check_parse("Bb1", 34);
    check_parse("B1", 35);
    check_parse("bb1", 34);
    check_parse("b1", 35);
    check_parse("c4", 60);
    check_parse("F\u266F3", 54);
    check_parse("B\u266D1", 34);
    check_parse("  E2\t", 40);
    check_parse("C0", 12);
    check_parse("B9", 131);
    /* Enharmonic spellings across the octave's edge. */
    check_parse("B#3", 60);
    check_parse("Cb4", 59);
    check_parse("E#3", 53);
    check_parse("Fb3", 52);
}

static void test_what_is_no_note_is_refused(void **state)
{
    (void)state;
    static const char *const bad[] = {"",
                                      " ",
                                      "E",
                                      "2",
                                      "H3",
                                      "E22",
                                      "E-1",
                                      "E#",
                                      "E##3",
                                      "Ebb3",
                                      "#E2",
                                      "E2x",
                                      "\xE2\x99\xAF"
                                      "3",
                                      "E\xE2\x99",
                                      "E\xE2\x99\xAE"
                                      "3",
                                      "F\xE2\x99\xAF",
                                      "@4"};

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        int semitone = -99;

        if (pitch_parse(bad[i], &semitone) != STATUS_SYNTAX || semitone != -99)
            fail_msg("\"%s\" was taken as %d", bad[i], semitone);
    }

    int semitone = -99;

    assert_int_equal(pitch_parse("Cb0", &semitone), STATUS_RANGE);
    assert_int_equal(pitch_parse("B#9", &semitone), STATUS_RANGE);
    assert_int_equal(semitone, -99);
}

static void test_spelling_reads_back(void **state)
{
    (void)state;
    for (int n = PITCH_LOWEST; n <= PITCH_HIGHEST; n++) {
        char memory[8];
        struct strbuf buf = STRBUF(memory);

        assert_int_equal(pitch_spell(n, false, &buf), STATUS_OK);
        assert_false(buf.truncated);
        check_parse(memory, n);
    }

    char memory[8];
    struct strbuf buf = STRBUF(memory);

    assert_int_equal(pitch_spell(PITCH_LOWEST - 1, true, &buf), STATUS_RANGE);
    assert_int_equal(pitch_spell(PITCH_HIGHEST + 1, false, &buf), STATUS_RANGE);
    assert_string_equal(memory, "");
    assert_int_equal(pitch_spell(54, false, &buf), STATUS_OK);
    assert_string_equal(memory, "F#3");
}

/* An octave doubles, a semitone is a hundred cents, whatever A4 is. */
static void test_octaves_and_cents(void **state)
{
    (void)state;
    struct seeded seeded = seeded_start("pitch");

    for (int k = 0; k < 200; k++) {
        double a4 = seeded_between(&seeded, 380, 480);
        double semitone = seeded_between(&seeded, 12, 119);
        double step = seeded_between(&seeded, -24, 24);
        double low, octave, other;

        assert_int_equal(pitch_frequency(semitone, a4, &low), STATUS_OK);
        assert_int_equal(pitch_frequency(semitone + 12, a4, &octave), STATUS_OK);
        assert_int_equal(pitch_frequency(semitone + step, a4, &other), STATUS_OK);
        assert_near_relative(octave, 2 * low, 1e-14);
        assert_near(1200 * log2(other / low), 100 * step, 1e-9);
    }
}

static void test_hostile_numbers(void **state)
{
    (void)state;
    static const double bad[] = {0, -1, -(double)INFINITY, (double)INFINITY, (double)NAN};
    double out = 7;

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(pitch_frequency(69, bad[i], &out), STATUS_DOMAIN);
    assert_int_equal(pitch_frequency((double)NAN, 440, &out), STATUS_DOMAIN);
    assert_int_equal(pitch_frequency(1e9, 440, &out), STATUS_DOMAIN);
    assert_int_equal(pitch_frequency(-1e9, 440, &out), STATUS_DOMAIN);
    assert_near(out, 7, 0);
}

static void a_missing_octave_is_the_nearest(void **state)
{
    static const struct {
        const char *text;
        int semitone;
        const char *name;
    } cases[] = {{"e", 40, "E2"},   {"Eb", 40, "Eb2"}, {"B", 62, "B3"},  {"C", 59, "C4"},
                 {"f#", 40, "F#2"}, {"G", 45, "G2"},   {"Cb", 12, "Cb1"}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char memory[16];
        struct strbuf text = STRBUF(memory);

        assert_int_equal(pitch_add_nearest(cases[i].text, cases[i].semitone, &text), STATUS_OK);
        assert_string_equal(memory, cases[i].name);
    }
    char memory[16];
    struct strbuf text = STRBUF(memory);
    assert_int_equal(pitch_add_nearest("E2", 40, &text), STATUS_SYNTAX);
    assert_int_equal(pitch_add_nearest("H", 40, &text), STATUS_SYNTAX);
    assert_int_equal(pitch_add_nearest("", 40, &text), STATUS_SYNTAX);
    assert_int_equal(pitch_add_nearest("E flat", 40, &text), STATUS_SYNTAX);
    assert_string_equal(memory, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_missing_octave_is_the_nearest),
        cmocka_unit_test(test_notes_are_read),
        cmocka_unit_test(test_what_is_no_note_is_refused),
        cmocka_unit_test(test_spelling_reads_back),
        cmocka_unit_test(test_octaves_and_cents),
        cmocka_unit_test(test_hostile_numbers),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
