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
    file_words_done(&ret_options->files);
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
        struct sheet_options options = {.output = NULL};
        char memory[256];

        assert_true(read_words(texts[i], memory, &options));
        assert_string_equal(options.files.paths[0], "a.ini");
        assert_string_equal(options.output, "out.pdf");
        assert_int_equal(options.format, SHEET_FORMAT_PDF);
        assert_int_equal(options.paper, SHOP_PAPER_A4);
        assert_int_equal(options.visit, 2);
        file_words_done(&options.files);
    }
}

static void the_name_says_the_format(void **state)
{
    struct sheet_options options = {.output = NULL};
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
    assert_string_equal(options.files.paths[0], "-odd.ini");
    file_words_done(&options.files);
}

static void each_file_has_its_name(void **state)
{
    static const char *const names[] = {"out/a-1.pdf", "out/b.c-1.pdf", "out/.d-1.pdf"};
    struct sheet_options options = {.output = NULL};
    char memory[256], name[OUTPUT_NAME_MAX];

    (void)state;
    assert_true(read_words("-o out/%-1.pdf x/a.ini b.c.ini .d", memory, &options));
    assert_int_equal(options.files.count, 3);
    for (int i = 0; i < 3; i++)
        assert_string_equal(file_words_output(&options.files, i, options.output, name), names[i]);
    assert_true(file_words_spare(&options.files, options.output));
    assert_false(file_words_spare(&options.files, "out.pdf"));
    assert_true(file_words_spare(&options.files, NULL));
    /* For one file the name is taken as it is. */
    assert_true(read_words("-o %.pdf a.ini", memory, &options));
    assert_string_equal(file_words_output(&options.files, 0, options.output, name), "%.pdf");
    /* Two folders may hold files of the same name. */
    assert_true(read_words("-o %.pdf x/a.ini y/a.ini", memory, &options));
    assert_false(file_words_spare(&options.files, options.output));
    file_words_done(&options.files);
}

static void what_is_not_understood_is_refused(void **state)
{
    static const char *const texts[] = {
        "",
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
        struct sheet_options options = {.output = NULL};
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
        cmocka_unit_test(each_file_has_its_name),
        cmocka_unit_test(what_is_not_understood_is_refused),
    };

    /* The messages are for a person, not for the test's log. */
    if (!freopen("/dev/null", "w", stderr))
        return 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
