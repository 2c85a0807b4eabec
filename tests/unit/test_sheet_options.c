/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "commands/sheet_options.h"

enum { WORDS_MAX = 8 };

/* Reads options written as a text with single blanks; `memory` holds the words. */
static bool read_words(const char *text, char memory[256], struct sheet_options *ret_options)
{
    char *words[WORDS_MAX];
    int count = 0;

    assert_true(strlen(text) < 256);
    memcpy(memory, text, strlen(text) + 1);
    for (char *word = strtok(memory, " "); word && count < WORDS_MAX; word = strtok(NULL, " "))
        words[count++] = word;
    return sheet_options_read(count, words, ret_options);
}

static void options_stand_before_or_behind_the_file(void **state)
{
    static const char *const texts[] = {
        "-o out.pdf --paper a4 --visit 2 a.ini",
        "a.ini -o out.pdf --paper a4 --visit 2",
        "--paper a4 a.ini --visit 2 -o out.pdf",
        "--visit 2 -o out.pdf --paper a4 -- a.ini",
    };

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct sheet_options options;
        char memory[256];

        assert_true(read_words(texts[i], memory, &options));
        assert_string_equal(options.path, "a.ini");
        assert_string_equal(options.output, "out.pdf");
        assert_int_equal(options.format, SHEET_FORMAT_PDF);
        assert_int_equal(options.paper, SHOP_PAPER_A4);
        assert_int_equal(options.visit, 2);
    }
}

static void the_name_says_the_format(void **state)
{
    struct sheet_options options;
    char memory[256];

    (void)state;
    assert_true(read_words("a.ini", memory, &options));
    assert_null(options.output);
    assert_int_equal(options.format, SHEET_FORMAT_TEXT);
    assert_int_equal(options.paper, SHOP_PAPER_UNSAID);
    assert_int_equal(options.visit, 0);
    assert_true(read_words("-o a.b.svg --paper letter a.ini", memory, &options));
    assert_int_equal(options.format, SHEET_FORMAT_SVG);
    assert_int_equal(options.paper, SHOP_PAPER_LETTER);
    assert_true(read_words("-o a.txt -- -odd.ini", memory, &options));
    assert_int_equal(options.format, SHEET_FORMAT_TEXT);
    assert_string_equal(options.path, "-odd.ini");
}

static void what_is_not_understood_is_refused(void **state)
{
    static const char *const texts[] = {
        "",
        "a.ini b.ini",
        "-o",
        "a.ini -o",
        "-o sheet a.ini",
        "-o sheet.doc a.ini",
        "-o pdf a.ini",
        "--paper a5 a.ini",
        "--paper",
        "--visit a.ini",
        "--visit 0 a.ini",
        "--visit 2x a.ini",
        "--visit -1 a.ini",
        "--visit 99999 a.ini",
        "--more a.ini",
    };

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct sheet_options options;
        char memory[256];

        if (read_words(texts[i], memory, &options))
            fail_msg("taken: '%s'", texts[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(options_stand_before_or_behind_the_file),
        cmocka_unit_test(the_name_says_the_format),
        cmocka_unit_test(what_is_not_understood_is_refused),
    };

    /* The messages are for a person, not for the test's log. */
    if (!freopen("/dev/null", "w", stderr))
        return 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
