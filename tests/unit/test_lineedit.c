/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/event.h"
#include "session/lineedit.h"
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

static void the_cursor_moves_by_characters(void **state)
{
    struct lineedit line;

    (void)state;
    assert_true(lineedit_set(&line, "7\xC2\xBD/64"));
    assert_int_equal(line.cursor, line.length);
    for (int i = 0; i < 3; i++)
        assert_true(lineedit_move(&line, SILLET_KEY_LEFT));
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "7/64");
    assert_true(lineedit_add(&line, 0xBC)); /* a quarter */
    assert_string_equal(line.text, "7\xC2\xBC/64");
    assert_true(lineedit_move(&line, SILLET_KEY_HOME));
    assert_false(lineedit_backspace(&line));
    assert_true(lineedit_delete(&line));
    assert_true(lineedit_delete(&line));
    assert_string_equal(line.text, "/64");
    assert_true(lineedit_add(&line, '9'));
    assert_true(lineedit_move(&line, SILLET_KEY_RIGHT));
    assert_true(lineedit_add(&line, '1'));
    assert_string_equal(line.text, "9/164");
    assert_true(lineedit_move(&line, SILLET_KEY_END));
    assert_false(lineedit_delete(&line));
    assert_false(lineedit_move(&line, SILLET_KEY_UP));
    assert_true(lineedit_move(&line, SILLET_KEY_CTRL('u')));
    assert_true(lineedit_is_empty(&line));
    assert_int_equal(line.cursor, 0);
}

/* A text from a file may hold bytes that make no character: each is shown as one, and taken away
 * as one. */
static void backspace_takes_stray_bytes_one_by_one(void **state)
{
    struct lineedit line;

    (void)state;
    assert_true(lineedit_set(&line, "a\x80\xC2\xBD\xE2\x82"));
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "a\x80\xC2\xBD\xE2");
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "a\x80\xC2\xBD");
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "a\x80");
    assert_true(lineedit_backspace(&line));
    assert_string_equal(line.text, "a");
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
        static const uint32_t moves[] = {SILLET_KEY_LEFT, SILLET_KEY_RIGHT, SILLET_KEY_HOME,
                                         SILLET_KEY_END};

        lineedit_move(&line, moves[seeded_whole(&seed, 0, 3)]);

        if (seeded_whole(&seed, 0, 2) > 0)
            characters += lineedit_add(&line, rune);
        else
            characters -=
                seeded_whole(&seed, 0, 1) ? lineedit_backspace(&line) : lineedit_delete(&line);
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
        cmocka_unit_test(the_cursor_moves_by_characters),
        cmocka_unit_test(backspace_takes_stray_bytes_one_by_one),
        cmocka_unit_test(lineedit_stays_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
