/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "model/reading/name_list.h"
#include "model/reading/tuning.h"
#include "words/kind_words.h"

/* Kinds and tunings as a tech says them. */

static void check(const char *lines, const char *words)
{
    char memory[64];
    struct strbuf text = STRBUF(memory);
    struct record record;

    build_record(&record, lines);
    kind_words_add(&record, &text);
    assert_string_equal(memory, words);
    record_done(&record);
}

static void kinds_are_said(void **state)
{
    (void)state;
    check("", "");
    check("instrument kind = other\n", "");
    check("instrument kind = steel-string\n", "steel-string guitar");
    check("instrument kind = steel-string\nboard strings = 6\n", "steel-string guitar");
    check("instrument kind = steel-string\nboard strings = 12\n", "twelve-string guitar");
    check("instrument kind = electric\nboard strings = 7\n", "seven-string electric guitar");
    check("instrument kind = bass\nboard strings = 4\n", "bass");
    check("instrument kind = bass\nboard strings = 5\nboard fretless = yes\n",
          "fretless five-string bass");
    check("instrument kind = mandolin\nboard strings = 8\n", "mandolin");
    check("instrument kind = resonator\nboard strings = 6\nnut kind = raised\n",
          "resonator guitar with a raised nut");
    check("instrument kind = banjo\nboard strings = 4\n", "four-string banjo");
}

/* Every choice has its words, in the order of the table. */
static void every_kind_has_its_words(void **state)
{
    char name[KIND_NAME_SIZE];

    (void)state;
    for (int k = 0; field_choice(field_get(FIELD_KIND), k, name, sizeof name); k++) {
        char line[64], memory[64];
        struct strbuf text = STRBUF(memory);
        struct record record;

        snprintf(line, sizeof line, "instrument kind = %s\n", name);
        build_record(&record, line);
        kind_words_add(&record, &text);
        if (strcmp(name, "other") != 0 && !strstr(memory, name))
            fail_msg("%s is said \"%s\"", name, memory);
        record_done(&record);
    }
}

/* No name of the table's rows stands in what is said, and what is said can be typed: it finds its
 * tuning among those for the instrument. */
static void tunings_are_said_and_typed(void **state)
{
    (void)state;
    for (int k = 0; tuning_get(k); k++) {
        const struct tuning *tuning = tuning_get(k);
        const size_t family = strcspn(tuning->name, "-");

        if (strncmp(tuning->said, tuning->name, family) == 0 && tuning->said[family] == '-')
            fail_msg("%s is said \"%s\"", tuning->name, tuning->said);
        for (int other = 0; other < k; other++) {
            const struct tuning *before = tuning_get(other);
            const bool same_family = strncmp(before->name, tuning->name, family + 1) == 0;
            struct string_notes notes, notes_before;

            assert_int_equal(tuning_read_notes(tuning->notes, &notes), STATUS_OK);
            assert_int_equal(tuning_read_notes(before->notes, &notes_before), STATUS_OK);
            if (same_family && notes.strings == notes_before.strings &&
                strcmp(before->said, tuning->said) == 0)
                fail_msg("%s and %s are both said \"%s\"", before->name, tuning->name,
                         tuning->said);
        }
    }
}

static void what_is_said_is_found(void **state)
{
    struct record record;

    (void)state;
    build_record(&record, "instrument kind = electric\nboard strings = 6\n");
    const struct name_list list = name_list_for(NAMES_OF_TUNINGS, &record);
    for (int k = 0; k < name_list_count(&list); k++) {
        char said[NAME_LIST_NAME_SIZE], form[NAME_LIST_NAME_SIZE];
        struct strbuf text = STRBUF(form);

        assert_true(name_list_said(&list, k, said, sizeof said));
        assert_true(name_list_other_name(&list, k, 1, &text));
        assert_string_equal(form, said);
    }
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kinds_are_said),
        cmocka_unit_test(every_kind_has_its_words),
        cmocka_unit_test(tunings_are_said_and_typed),
        cmocka_unit_test(what_is_said_is_found),
    };

    return cmocka_run_group_tests_name("kind_words", tests, NULL, NULL) ? 1 : 0;
}
