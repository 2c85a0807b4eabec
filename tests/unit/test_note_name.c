/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "model/reading/note_name.h"
#include "model/strings/pitch.h"
#include "model/survey/survey_what_if.h"

/* A record with these notes, from the bass string to the treble, blanks between. */
static void tuned(struct record *ret_record, const char *notes)
{
    char lines[400];
    struct strbuf text = STRBUF(lines);
    char each[16];
    int strings = 0, at = 0, used;

    for (; sscanf(notes + at, "%15s%n", each, &used) == 1; at += used)
        strings++;
    at = 0;
    for (int s = strings; s >= 1; s--, at += used) {
        assert_int_equal(sscanf(notes + at, "%15s%n", each, &used), 1);
        strbuf_addf(&text, "string.%d note = %s\n", s, each);
    }
    build_record(ret_record, lines);
}

static void check_names(const char *typed, const char *shown)
{
    struct record record;
    char memory[128];
    struct strbuf names = STRBUF(memory);

    tuned(&record, typed);
    for (int s = record_string_count(&record); s >= 1; s--) {
        assert_true(note_name_of(&record, s, &names));
        strbuf_add(&names, s > 1 ? " " : "");
    }
    assert_string_equal(memory, shown);
    record_done(&record);
}

/* Half a step down is said in flats, open D in sharps (common practice). */
static void a_named_tuning_is_spelled_its_own_way(void **state)
{
    (void)state;
    check_names("D#2 G#2 C#3 F#3 A#3 D#4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    check_names("eb2 ab2 db3 gb3 bb3 eb4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    check_names("D2 A2 D3 Gb3 A3 D4", "D2 A2 D3 F#3 A3 D4");
    check_names("E2 A2 D3 G3 B3 E4", "E2 A2 D3 G3 B3 E4");
}

static void any_other_is_spelled_as_typed(void **state)
{
    (void)state;
    check_names("D#2 A2 D3 G3 B3 E4", "D#2 A2 D3 G3 B3 E4");
    check_names("E\xE2\x99\xAD"
                "2 A2 D3 G3 B3 e4",
                "Eb2 A2 D3 G3 B3 E4");
    check_names("c\xE2\x99\xAF"
                "3 G3 D4",
                "C#3 G3 D4");
}

static void what_is_no_note_has_no_name(void **state)
{
    struct record record;
    char memory[16];
    struct strbuf name = STRBUF(memory);
    const struct reading_key key = reading_key_string(FIELD_STRING_NOTE, 2);

    (void)state;
    tuned(&record, "E2 A2");
    assert_int_equal(record_put(&record, &key, "H2", true, NULL), STATUS_SYNTAX);
    assert_string_equal(record_text(&record, &key), "H2");
    assert_false(note_name_of(&record, 2, &name));
    assert_false(note_name_of(&record, 3, &name));
    assert_string_equal(memory, "");
    record_done(&record);
}

static void check_beside(const char *typed, int string, int semitone, bool lean_flat,
                         const char *shown)
{
    struct record record;
    char memory[16];
    struct strbuf name = STRBUF(memory);

    tuned(&record, typed);
    assert_int_equal(note_name_beside(&record, string, semitone, lean_flat, &name), STATUS_OK);
    assert_string_equal(memory, shown);
    record_done(&record);
}

/* Semitone 39 lies between D2 and E2, 54 between F3 and G3 (ISO 16, A4 = 69). */
static void a_proposed_note_follows_the_others(void **state)
{
    (void)state;
    check_beside("E2 Ab2 D3 G3 B3 E4", 6, 39, false, "Eb2");
    check_beside("E2 A2 D3 F#3 B3 E4", 6, 39, true, "D#2");
    check_beside("E2 A2 D3 G3 B3 E4", 6, 39, true, "Eb2");
    check_beside("E2 A2 D3 G3 B3 E4", 6, 39, false, "D#2");
    /* With this one the strings are in open D, whatever the way there. */
    check_beside("D2 A2 D3 G3 A3 D4", 3, 54, true, "F#3");
}

static void a_note_out_of_range_is_refused(void **state)
{
    struct record record;
    char memory[16];
    struct strbuf name = STRBUF(memory);

    (void)state;
    tuned(&record, "E2 A2");
    assert_int_equal(note_name_beside(&record, 1, PITCH_HIGHEST + 1, false, &name), STATUS_RANGE);
    assert_string_equal(memory, "");
    record_done(&record);
}

static void a_what_if_names_all_strings_anew(void **state)
{
    static const char *const names[] = {"", "Eb4", "Bb3", "Gb3", "Db3", "Ab2", "Eb2"};
    static const int standard[] = {0, 64, 59, 55, 50, 45, 40};
    struct survey_what_if what_if = {.strings = 6};
    struct record record;

    (void)state;
    tuned(&record, "E2 A2 D3 G3 B3 E4");
    for (int s = 1; s <= 6; s++)
        what_if.string[s].semitone = maybe_given(standard[s] - 1);
    for (int s = 1; s <= 6; s++) {
        char memory[16];
        struct strbuf name = STRBUF(memory);

        assert_true(survey_what_if_add_note(&record, &what_if, s, &name));
        assert_string_equal(memory, names[s]);
    }
    char memory[16];
    struct strbuf name = STRBUF(memory);

    what_if.string[3].semitone.value += 0.5;
    assert_false(survey_what_if_add_note(&record, &what_if, 3, &name));
    what_if.string[3].semitone.given = false;
    assert_false(survey_what_if_add_note(&record, &what_if, 3, &name));
    assert_string_equal(memory, "");
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_named_tuning_is_spelled_its_own_way),
        cmocka_unit_test(any_other_is_spelled_as_typed),
        cmocka_unit_test(what_is_no_note_has_no_name),
        cmocka_unit_test(a_proposed_note_follows_the_others),
        cmocka_unit_test(a_note_out_of_range_is_refused),
        cmocka_unit_test(a_what_if_names_all_strings_anew),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
