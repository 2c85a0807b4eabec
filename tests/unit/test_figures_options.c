/* SPDX-License-Identifier: MIT */
#include "commands/figures_options.h"

#include <string.h>

#include "near.h"

enum { WORDS_MAX = 10, LINE_MAX_ = 200 };

/* Reads the words of a line, each ended by '|'. The memory is the caller's: a path points
 * into it. */
static bool read(const char *line, char memory[LINE_MAX_], struct figures_options *ret_options)
{
    char *words[WORDS_MAX];
    int count = 0;

    assert_true(strlen(line) < LINE_MAX_);
    strcpy(memory, line);
    for (char *end; (end = strchr(memory, '|')) != NULL; memory = end + 1) {
        assert_true(count < WORDS_MAX);
        *end = '\0';
        words[count++] = memory;
    }
    file_words_done(&ret_options->files);
    return figures_options_read(count, words, ret_options);
}

static void test_accepted(void **state)
{
    char memory[LINE_MAX_];
    struct figures_options options = {.more = false};

    (void)state;
    assert_true(read("a.ini|", memory, &options));
    assert_int_equal(options.files.count, 1);
    assert_string_equal(options.files.paths[0], "a.ini");
    assert_false(options.more || options.what_if);
    assert_true(read("--more|a.ini|", memory, &options));
    assert_true(options.more && !options.what_if);
    assert_true(
        read("--tuning|guitar-dadgad|--shift|-2|--set|steel-light|--|--more|", memory, &options));
    assert_string_equal(options.files.paths[0], "--more");
    assert_true(options.what_if && !options.more);
    assert_true(options.change.has_notes && options.change.has_set);
    assert_int_equal(options.change.notes.semitone[6], 38);
    assert_string_equal(options.change.set.name, "steel-light");
    assert_near(options.change.shift_semitones, -2, 0);
    assert_true(read("--all-visits|a.ini|", memory, &options));
    assert_true(options.all_visits && !options.more && !options.what_if);
    assert_true(read("--notes|E1 A1 D2 G2|-|", memory, &options));
    assert_string_equal(options.files.paths[0], "-");
    assert_int_equal(options.change.notes.strings, 4);
    assert_true(read("--shift|0.5|a.ini|", memory, &options));
    assert_near(options.change.shift_semitones, 0.5, 0);
    assert_true(read("a.ini|--more|b.ini|--|-c.ini|", memory, &options));
    assert_int_equal(options.files.count, 3);
    assert_string_equal(options.files.paths[1], "b.ini");
    assert_string_equal(options.files.paths[2], "-c.ini");
    file_words_done(&options.files);
}

static void test_refused(void **state)
{
    static const char *const refused[] = {
        "",
        "--more|",
        "--all-visits|",
        "--all-visits|--more|a.ini|",
        "--shift|1|--all-visits|a.ini|",
        "--least|a.ini|",
        "--tuning|a.ini|",
        "--tuning|",
        "--tuning|no-such|a.ini|",
        "--set||a.ini|",
        "--notes|E2 H2|a.ini|",
        "--shift|two|a.ini|",
        "--shift|25|a.ini|",
        "--shift|1e1|a.ini|",
        "--tuning|bass-four|--notes|E1 A1 D2 G2|a.ini|",
    };
    char memory[LINE_MAX_];
    struct figures_options options = {.what_if = true};

    (void)state;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        assert_false(read(refused[i], memory, &options));
        assert_true(options.what_if && options.files.count == 0);
    }
    /* Behind -- everything is a file. */
    assert_true(read("--|--|", memory, &options));
    assert_string_equal(options.files.paths[0], "--");
    file_words_done(&options.files);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_accepted),
        cmocka_unit_test(test_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
