/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "base/utf8.h"
#include "draw/pen.h"

enum { ROWS = 6, COLUMNS = 20 };

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

static const char *row_of(const struct frame *frame, int row)
{
    static char text[8 * COLUMNS];

    frame_row_text(frame, row, text, sizeof text);
    return text;
}

static void check_put(struct frame *frame, bool utf8, const char *text, const char *want)
{
    const struct pen pen = {.frame = frame, .utf8 = utf8};

    frame_clear(frame);
    const int used = pen_put(&pen, 0, 0, COLUMNS, ROLE_TEXT, text);
    assert_string_equal(row_of(frame, 0), want);
    assert_int_equal(used, utf8_columns(want));
}

static void pen_writes_utf8_as_it_is(void **state)
{
    check_put(*state, true, "\xC2\xB1.001 \xC2\xB7 8\xC2\xBC", "\xC2\xB1.001 \xC2\xB7 8\xC2\xBC");
}

static void pen_spells_its_signs_in_ascii(void **state)
{
    check_put(*state, false, "\xC2\xB1.001", "+-.001");
    check_put(*state, false, "a \xC2\xB7 b", "a - b");
    check_put(*state, false,
              "\xC3\x97"
              "12",
              "x12");
    check_put(*state, false, "8\xC2\xBC", "8 1/4");
    check_put(*state, false, "B\xE2\x99\xAD F\xE2\x99\xAF", "Bb F#");
}

/* A name in another script keeps its width, so that what follows stays in place. */
static void pen_marks_what_ascii_cannot_write(void **state)
{
    check_put(*state, false,
              "\xC3\xA9"
              "t\xC3\xA9",
              "?t?");
    check_put(*state, false, "\xE6\x97\xA5x", "??x");
    check_put(*state, false, "e\xCC\x81x", "ex");
}

/* What a terminal would act on is no text, in either case. */
static void pen_lets_no_control_through(void **state)
{
    const char hostile[] = "a\x1B[2Jb\x07\xC2\x9B"
                           "c\xE2\x80\xAE"
                           "d\xFF"
                           "e\x7F";

    check_put(*state, false, hostile, "a?[2Jb??c?d?e?");
    check_put(*state, true, hostile,
              "a\xEF\xBF\xBD[2Jb\xEF\xBF\xBD\xEF\xBF\xBD"
              "c\xEF\xBF\xBD"
              "d\xEF\xBF\xBD"
              "e\xEF\xBF\xBD");
}

static void pen_writes_flush_right(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = false};

    pen_put_right(&pen, 1, 2, 8, ROLE_VALUE, "\xC2\xB1.01");
    assert_string_equal(row_of(frame, 1), "     +-.01");
}

static void pen_rules_a_line(void **state)
{
    struct frame *frame = *state;
    struct pen pen = {.frame = frame, .utf8 = true};

    pen_rule(&pen, 2, 1, 3);
    assert_string_equal(row_of(frame, 2), " \xE2\x94\x80\xE2\x94\x80\xE2\x94\x80");
    pen.utf8 = false;
    pen_rule(&pen, 2, 1, 3);
    assert_string_equal(row_of(frame, 2), " ---");
    pen_rule(&pen, 3, -5, 2 * COLUMNS);
    pen_rule(&pen, -1, 0, COLUMNS);
    assert_string_equal(row_of(frame, 3), "--------------------");
}

static void pen_wraps_at_blanks(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = true};
    static const char text[] = "stop when the rod binds, then measure";

    assert_int_equal(pen_wrap_from(&pen, 0, 2, 10, 0, 0, ROLE_TEXT, text), 5);
    assert_string_equal(row_of(frame, 0), "");
    assert_int_equal(pen_wrap_from(&pen, 0, 2, 10, 0, ROWS, ROLE_TEXT, text), 5);
    assert_string_equal(row_of(frame, 0), "  stop when");
    assert_string_equal(row_of(frame, 1), "  the rod");
    assert_string_equal(row_of(frame, 2), "  binds,");
    assert_string_equal(row_of(frame, 3), "  then");
}

static void pen_wrap_leaves_out_the_first_lines(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = true};

    assert_int_equal(pen_wrap_from(&pen, 0, 0, 5, 2, ROWS, ROLE_TEXT, "one two three four"), 2);
    assert_string_equal(row_of(frame, 0), "three");
    assert_string_equal(row_of(frame, 1), "four");
    assert_int_equal(pen_wrap_from(&pen, 4, 0, 5, 9, ROWS, ROLE_TEXT, "one two three four"), 0);
}

static void pen_wraps_no_farther_than_asked(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = true};

    assert_int_equal(pen_wrap_from(&pen, 0, 0, 5, 0, 2, ROLE_TEXT, "one two three four"), 2);
    assert_string_equal(row_of(frame, 1), "two");
    assert_string_equal(row_of(frame, 2), "");
    assert_int_equal(pen_wrap_from(&pen, 3, 0, 5, 0, 2, ROLE_TEXT, ""), 0);
}

/* A word longer than the line is broken inside; where nothing fits, nothing is done. */
static void pen_wrap_always_comes_to_an_end(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = true};

    assert_int_equal(pen_wrap_from(&pen, 0, 0, 4, 0, ROWS, ROLE_TEXT, "intonation"), 3);
    assert_string_equal(row_of(frame, 2), "on");
    assert_int_equal(pen_wrap_from(&pen, 0, 0, 0, 0, ROWS, ROLE_TEXT, "intonation"), 0);
    assert_int_equal(pen_wrap_from(&pen, 0, 0, 1, 0, ROWS, ROLE_TEXT, "\xE6\x97\xA5"), 0);
}

/* Signs that are longer in ASCII do not push the end of a line off its edge. */
static void pen_wrap_loses_nothing_in_ascii(void **state)
{
    struct frame *frame = *state;
    const struct pen pen = {.frame = frame, .utf8 = false};

    assert_int_equal(
        pen_wrap_from(&pen, 0, 0, 8, 0, ROWS, ROLE_TEXT, "\xC2\xB1.01 \xC2\xB1.0 ende"), 3);
    assert_string_equal(row_of(frame, 0), "+-.01");
    assert_string_equal(row_of(frame, 1), "+-.0");
    assert_string_equal(row_of(frame, 2), "ende");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(pen_writes_utf8_as_it_is, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_spells_its_signs_in_ascii, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_marks_what_ascii_cannot_write, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_lets_no_control_through, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_writes_flush_right, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_rules_a_line, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_wraps_at_blanks, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_wrap_leaves_out_the_first_lines, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_wraps_no_farther_than_asked, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_wrap_always_comes_to_an_end, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pen_wrap_loses_nothing_in_ascii, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
