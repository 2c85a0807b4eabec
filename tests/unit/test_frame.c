/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/utf8.h"
#include "draw/frame.h"

enum { ROWS = 3, COLUMNS = 10 };

#define WIDE  "\xE6\x97\xA5" /* U+65E5, two columns */
#define ACUTE "\xCC\x81"     /* U+0301, combining */
#define HALF  "\xC2\xBD"     /* U+00BD */
#define LOST  "\xEF\xBF\xBD" /* U+FFFD */

static int set_up(void **state)
{
    static struct frame frame;
    *state = &frame;
    return frame_init(&frame, ROWS, COLUMNS) == STATUS_OK ? 0 : -1;
}

static int tear_down(void **state)
{
    frame_done(*state);
    return 0;
}

static void check_row(const struct frame *frame, int row, const char *want)
{
    char text[200];
    size_t length = frame_row_text(frame, row, text, sizeof text);
    assert_string_equal(text, want);
    assert_int_equal(length, strlen(want));
}

static void check_roles(const struct frame *frame, int row, const char *want)
{
    char text[COLUMNS + 1];
    assert_int_equal(frame_row_roles(frame, row, text, sizeof text), COLUMNS);
    assert_string_equal(text, want);
}

/* Every wide left half has its right half and no right half stands alone. */
static void check_whole(const struct frame *frame)
{
    for (int row = 0; row < frame->rows; row++) {
        for (int column = 0; column < frame->columns; column++) {
            const struct cell *cell = &frame->cells[row * frame->columns + column];
            bool right_follows = column + 1 < frame->columns && cell[1].rune == 0;
            assert_int_equal(cell->rune != 0 && utf8_width(cell->rune) == 2, right_follows);
            assert_false(column == 0 && cell->rune == 0);
        }
    }
}

static void test_sizes(void **state)
{
    struct frame frame = {.rows = 7};
    (void)state;
    assert_int_equal(frame_init(&frame, 0, 1), STATUS_DOMAIN);
    assert_int_equal(frame_init(&frame, 1, 0), STATUS_DOMAIN);
    assert_int_equal(frame_init(&frame, -1, -1), STATUS_DOMAIN);
    assert_int_equal(frame_init(&frame, FRAME_ROWS_MAX + 1, 1), STATUS_DOMAIN);
    assert_int_equal(frame_init(&frame, 1, FRAME_COLUMNS_MAX + 1), STATUS_DOMAIN);
    assert_int_equal(frame.rows, 7); /* untouched */
    assert_int_equal(frame_init(&frame, FRAME_ROWS_MAX, FRAME_COLUMNS_MAX), STATUS_OK);
    frame_done(&frame);
    frame_done(&frame);
    assert_null(frame.cells);
    assert_int_equal(frame_init(&frame, 1, 1), STATUS_OK);
    assert_int_equal(frame_put(&frame, 0, 0, 9, ROLE_TEXT, WIDE "a"), 0);
    assert_int_equal(frame_put(&frame, 0, 0, 9, ROLE_TEXT, "ab"), 1);
    check_row(&frame, 0, "a");
    frame_done(&frame);
}

static void test_starts_blank(void **state)
{
    const struct frame *frame = *state;
    check_row(frame, 0, "");
    check_roles(frame, ROWS - 1, "          ");
    assert_int_equal(frame->cursor_row, -1);
    assert_int_equal(frame->cursor_column, -1);
}

static void test_clear(void **state)
{
    struct frame *frame = *state;
    frame_put(frame, 0, 0, 9, ROLE_GOOD, "e" ACUTE WIDE);
    frame->cursor_row = frame->cursor_column = 1;
    frame_clear(frame);
    check_row(frame, 0, "");
    check_roles(frame, 0, "          ");
    assert_int_equal(frame->cursor_row, -1);
}

static void test_put(void **state)
{
    struct frame *frame = *state;
    assert_int_equal(frame_put(frame, 1, 2, 5, ROLE_VALUE, "8" HALF), 2);
    check_row(frame, 1, "  8" HALF);
    check_roles(frame, 1, "  vv      ");
    assert_int_equal(frame_put(frame, 0, 0, 3, ROLE_TEXT, "abcdef"), 3);
    check_row(frame, 0, "abc");
    assert_int_equal(frame_put(frame, 0, 8, 99, ROLE_TEXT, "xyz"), 2);
    check_row(frame, 0, "abc     xy");
    check_row(frame, 1, "  8" HALF);
}

static void test_outside_is_nothing(void **state)
{
    static const struct {
        int row, column, width;
    } outside[] = {{-1, 0, 5}, {ROWS, 0, 5}, {0, -1, 5}, {0, COLUMNS, 5}, {0, 0, 0}, {0, 0, -5}};
    struct frame *frame = *state;
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        int row = outside[i].row, column = outside[i].column, width = outside[i].width;
        assert_int_equal(frame_put(frame, row, column, width, ROLE_GOOD, "a"), 0);
        if (column >= 0) { /* from there flush right would be inside */
            assert_int_equal(frame_put_right(frame, row, column, width, ROLE_GOOD, "a"), 0);
        }
    }
    frame_put_rune(frame, -1, 0, ROLE_GOOD, 'a');
    frame_put_rune(frame, 0, COLUMNS, ROLE_GOOD, 'a');
    frame_set_role(frame, ROWS, 0, 3, ROLE_GOOD);
    frame_set_role(frame, 0, COLUMNS, 3, ROLE_GOOD);
    check_row(frame, 1, "");
    check_row(frame, -1, "");
    check_row(frame, ROWS, "");
}

static void test_bad_characters(void **state)
{
    struct frame *frame = *state;
    assert_int_equal(frame_put(frame, 0, 0, 99, ROLE_TEXT,
                               "a\xFF"
                               "b\033c\x7F"),
                     6);
    check_row(frame, 0, "a" LOST "b" LOST "c" LOST);
    /* right-to-left override, overlong '/', surrogate, cut short */
    assert_int_equal(frame_put(frame, 1, 0, 99, ROLE_TEXT,
                               "\xE2\x80\xAE"
                               "\xC0\xAF"
                               "\xC3"),
                     4);
    check_row(frame, 1, LOST LOST LOST LOST);
    frame_put_rune(frame, 2, 0, ROLE_TEXT, '\n');
    frame_put_rune(frame, 2, 1, ROLE_TEXT, 0x65E5); /* two columns cannot be put in one */
    frame_put_rune(frame, 2, 2, ROLE_TEXT, 0x28FF);
    check_row(frame, 2, LOST LOST "\xE2\xA3\xBF");
}

static void test_combining(void **state)
{
    struct frame *frame = *state;
    assert_int_equal(frame_put(frame, 0, 0, 99, ROLE_TEXT, ACUTE "e" ACUTE "x"), 2);
    check_row(frame, 0, "e" ACUTE "x");
    /* the mark belongs to the last character that fits; more than two are dropped */
    assert_int_equal(frame_put(frame, 1, 0, 1, ROLE_TEXT, "e" ACUTE ACUTE ACUTE "x"), 1);
    check_row(frame, 1, "e" ACUTE ACUTE);
    frame_put(frame, 1, 0, 1, ROLE_TEXT, "n");
    check_row(frame, 1, "n");
}

static void test_wide(void **state)
{
    struct frame *frame = *state;
    assert_int_equal(frame_put(frame, 0, 0, 99, ROLE_GOOD, WIDE WIDE "a"), 5);
    check_row(frame, 0, WIDE WIDE "a");
    check_roles(frame, 0, "ggggg     ");
    assert_int_equal(frame_put(frame, 1, COLUMNS - 1, 9, ROLE_TEXT, WIDE), 0);
    assert_int_equal(frame_put(frame, 1, COLUMNS - 2, 9, ROLE_TEXT, WIDE), 2);
    assert_int_equal(frame_put(frame, 2, 0, 2, ROLE_TEXT, "a" WIDE), 1);
    check_row(frame, 2, "a");
    check_whole(frame);
}

static void test_overwriting_half_of_a_wide_one(void **state)
{
    struct frame *frame = *state;
    frame_put(frame, 0, 2, 9, ROLE_TEXT, WIDE ACUTE);
    frame_put(frame, 0, 3, 9, ROLE_TEXT, "x"); /* its right half */
    check_row(frame, 0, "   x");
    frame_put(frame, 1, 2, 9, ROLE_TEXT, WIDE);
    frame_put_rune(frame, 1, 2, ROLE_TEXT, 'y'); /* its left half */
    check_row(frame, 1, "  y");
    frame_put(frame, 2, 0, 9, ROLE_TEXT, WIDE WIDE);
    frame_put(frame, 2, 1, 9, ROLE_TEXT, WIDE); /* a half of both */
    check_row(frame, 2, " " WIDE);
    check_whole(frame);
}

/* Whatever is put wherever, the grid stays whole. Seed fixed: 1. */
static void test_random_puts(void **state)
{
    static const char *const texts[] = {"a", WIDE, "b" WIDE, WIDE ACUTE "c", "\xFF", WIDE WIDE};
    struct frame *frame = *state;
    uint32_t random = 1;
    for (int i = 0; i < 20000; i++) {
        random = random * 1664525U + 1013904223U;
        const char *text = texts[(random >> 8) % 6];
        int row = (int)((random >> 12) % (ROWS + 2)) - 1;
        int column = (int)((random >> 16) % (COLUMNS + 2)) - 1;
        int width = (int)((random >> 24) % 6);
        if (random >> 31 != 0) {
            frame_put(frame, row, column, width, ROLE_TEXT, text);
        } else {
            frame_put_right(frame, row, column, width, ROLE_TEXT, text);
        }
        check_whole(frame);
    }
}

static void test_put_right(void **state)
{
    struct frame *frame = *state;
    assert_int_equal(frame_put_right(frame, 0, 1, 5, ROLE_VALUE, ".013"), 4);
    check_row(frame, 0, "  .013");
    check_roles(frame, 0, "  vvvv    ");
    assert_int_equal(frame_put_right(frame, 1, 0, 3, ROLE_VALUE, "12345"), 3);
    check_row(frame, 1, "123");
    assert_int_equal(frame_put_right(frame, 2, 0, COLUMNS, ROLE_VALUE, WIDE "e" ACUTE), 3);
    check_row(frame, 2, "       " WIDE "e" ACUTE);
}

static void test_set_role(void **state)
{
    struct frame *frame = *state;
    frame_put(frame, 0, 0, 9, ROLE_VALUE, "abcdef");
    frame_set_role(frame, 0, 2, 2, ROLE_CELL);
    frame_set_role(frame, 0, -3, 4, ROLE_OFF);
    frame_set_role(frame, 0, COLUMNS - 1, 99, ROLE_CAUTION);
    check_row(frame, 0, "abcdef");
    check_roles(frame, 0, "ovCCvv   !");
}

static void test_letters_differ(void **state)
{
    static const char letters[] = {
#define LETTER(name, letter) letter,
        ROLE_LIST(LETTER)
#undef LETTER
    };
    (void)state;
    for (size_t i = 0; i < sizeof letters; i++) {
        for (size_t j = 0; j < i; j++) {
            assert_int_not_equal(letters[i], letters[j]);
        }
    }
}

static void test_small_buffers(void **state)
{
    struct frame *frame = *state;
    char text[6] = "zzzzz";
    frame_put(frame, 0, 0, 9, ROLE_TEXT, "a" WIDE "b");
    assert_int_equal(frame_row_text(frame, 0, text, 4), 1); /* never half a character */
    assert_string_equal(text, "a");
    assert_int_equal(frame_row_text(frame, 0, text, 5), 4);
    assert_string_equal(text, "a" WIDE);
    assert_int_equal(frame_row_text(frame, 0, text, 1), 0);
    assert_string_equal(text, "");
    assert_int_equal(frame_row_text(frame, 0, text, 0), 0);
    assert_int_equal(frame_row_roles(frame, 0, text, 4), 3);
    assert_string_equal(text, "   ");
}

#define CASE(function) cmocka_unit_test_setup_teardown(function, set_up, tear_down)

/* A text over a text is told; one over a rule, a picture or blanks is meant. */
static void texts_that_collide_are_counted(void **state)
{
    struct frame frame;

    (void)state;
    assert_int_equal(frame_init(&frame, 3, 20), STATUS_OK);
    frame_put(&frame, 0, 0, 20, ROLE_RULE, "--------------------");
    frame_put(&frame, 0, 2, 20, ROLE_LABEL, "moves");
    frame_put(&frame, 1, 0, 20, ROLE_NOW, "------");
    frame_put(&frame, 1, 0, 20, ROLE_VALUE, "8.5");
    frame_put(&frame, 2, 0, 20, ROLE_VALUE, "8.5   7");
    frame_put(&frame, 2, 3, 3, ROLE_VALUE, "  6");
    assert_int_equal(frame.overwritten, 0);
    frame_put(&frame, 2, 2, 20, ROLE_VALUE, "12");
    assert_int_equal(frame.overwritten, 1);
    assert_int_equal(frame.overwritten_row, 2);
    frame_clear(&frame);
    assert_int_equal(frame.overwritten, 0);
    frame_done(&frame);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes),
        CASE(test_starts_blank),
        CASE(test_clear),
        CASE(test_put),
        CASE(test_outside_is_nothing),
        CASE(test_bad_characters),
        CASE(test_combining),
        CASE(test_wide),
        CASE(test_overwriting_half_of_a_wide_one),
        CASE(test_random_puts),
        CASE(test_put_right),
        CASE(test_set_role),
        cmocka_unit_test(test_letters_differ),
        CASE(test_small_buffers),
        cmocka_unit_test(texts_that_collide_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
