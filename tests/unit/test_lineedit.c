/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "app/lineedit.h"
#include "base/utf8.h"
#include "seeded.h"

static void lineedit_takes_characters_and_gives_them_back(void **state)
{
    struct lineedit line;

    (void)state;
    lineedit_clear(&line);
    assert_true(lineedit_is_empty(&line));
    assert_string_equal(line.text, "");
    assert_true(lineedit_add(&line, '7'));
    assert_true(lineedit_add(&line, '/'));
    assert_true(lineedit_add(&line, 0xBD));    /* a half */
    assert_true(lineedit_add(&line, 0x1F3B8)); /* four bytes */
    assert_string_equal(line.text, "7/\xC2\xBD\xF0\x9F\x8E\xB8");
    assert_int_equal(line.length, strlen(line.text));
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "7/\xC2\xBD");
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "7/");
    assert_false(lineedit_is_empty(&line));
    assert_true(lineedit_backspace(&line));
    assert_true(lineedit_backspace(&line));
    assert_false(lineedit_backspace(&line));
    assert_true(lineedit_is_empty(&line));
    assert_int_equal(line.length, 0);
}

static void lineedit_refuses_what_does_not_fit(void **state)
{
    struct lineedit line;

    (void)state;
    lineedit_clear(&line);
    for (int i = 0; i < LINEEDIT_MAX - 1; i++)
        assert_true(lineedit_add(&line, '1'));
    /* One byte is left: a character of two is refused whole. */
    assert_false(lineedit_add(&line, 0xBD));
    assert_int_equal(line.length, LINEEDIT_MAX - 1);
    assert_true(lineedit_add(&line, '2'));
    assert_false(lineedit_add(&line, '3'));
    assert_int_equal(strlen(line.text), LINEEDIT_MAX);
    assert_int_equal(line.text[LINEEDIT_MAX - 1], '2');
}

/* Whatever is added and taken away, the line is whole UTF-8 and as long as it says. */
static void lineedit_stays_whole(void **state)
{
    struct seeded seed = seeded_start("lineedit");
    struct lineedit line;
    int characters = 0;

    (void)state;
    lineedit_clear(&line);
    for (int i = 0; i < 20000; i++) {
        static const uint32_t widest[] = {0x7F, 0x7FF, 0xFFFD, 0x10FFFF};
        const uint32_t rune =
            (uint32_t)seeded_whole(&seed, ' ', (int)widest[seeded_whole(&seed, 0, 3)]);

        if (seeded_whole(&seed, 0, 2) > 0)
            characters += lineedit_add(&line, rune);
        else
            characters -= lineedit_backspace(&line);
        assert_true(line.length <= LINEEDIT_MAX);
        assert_int_equal(strlen(line.text), line.length);
        assert_true(utf8_valid(line.text, line.length));
        assert_int_equal(lineedit_is_empty(&line), characters == 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lineedit_takes_characters_and_gives_them_back),
        cmocka_unit_test(lineedit_refuses_what_does_not_fit),
        cmocka_unit_test(lineedit_stays_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
