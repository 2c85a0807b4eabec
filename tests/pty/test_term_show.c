/* SPDX-License-Identifier: MIT */

/* Frames: what the terminal shows, and how many bytes that takes. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "probe.h"

/* --- what is shown --- */

static void expect_pages(struct terminal *terminal, const char *first)
{
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, first);
    terminal_settle(terminal);
}

static void check_text_page(const char *term)
{
    struct terminal *terminal = probe_start(term);
    expect_pages(terminal, "page text");
    probe_expect_row(terminal, 1, "|e\xCC\x81|\xE6\x97\xA5|\xF0\x9F\x98\x80|");
    probe_expect_row(
        terminal, 2,
        "|\xC2\xBD\xC2\xB5\xE2\x99\xAD\xCE\xA9|\xE2\x94\x80\xE2\x94\x82|\xE2\xA0\xBF|");
    probe_expect_row(terminal, 3, "");
    probe_expect_row(terminal, 5, "five");
    probe_expect_row(terminal, 6,
                     "bad\xEF\xBF\xBD"
                     "byte\xEF\xBF\xBD[31mesc");
    terminal_check(terminal, strcmp(terminal_cell(terminal, 4, 78).text, "\xE6\x97\xA5") == 0);
    terminal_check(terminal, strcmp(terminal_cell(terminal, 23, 0).text, "b") == 0);
    terminal_check(terminal, strcmp(terminal_cell(terminal, 23, 79).text, "r") == 0);
    terminal_check(terminal, strncmp(terminal_row(terminal, 0), "page text", 9) == 0);
}

static void test_text(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (!probe_skips(probe_terms[i])) {
            check_text_page(probe_terms[i]);
        }
    }
}

/* Last resort only: the program above composes ASCII when told that it must. */
static void test_text_without_utf8(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start_with((struct terminal_setup){.lang = "C"});
    terminal_expect(terminal, "24x80 ascii");
    expect_pages(terminal, "page text");
    probe_expect_row(terminal, 1, "|e|? |? |");
    probe_expect_row(terminal, 2, "|????|??|?|");
    probe_expect_row(terminal, 5, "five");
    probe_expect_row(terminal, 6, "bad?byte?[31mesc");
    terminal =
        probe_start_with((struct terminal_setup){.lang = "xx_YY.UTF-8"}); /* no such locale */
    terminal_expect(terminal, "24x80 ascii");
}

static void test_oversize_frame(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "page text");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "ROLE_TEXT");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "page oversize");
    terminal_settle(terminal);
    probe_expect_row(terminal, 1, ""); /* half a character is none, and did not wrap */
    probe_expect_row(terminal, 2, "two");
    int row, column;
    bool visible;
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, !visible);
    terminal_expect(terminal, "last row");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "page undersize");
    terminal_expect_gone(terminal, "last row"); /* nothing of the larger frame stays */
}

static struct terminal *start_roles(const char *term, const char *const *env)
{
    struct terminal *terminal = probe_start_with((struct terminal_setup){.term = term, .env = env});
    terminal_expect(terminal, "keys=0 ");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "page text");
    terminal_type(terminal, CTRL('f'));
    terminal_expect(terminal, "ROLE_KEY");
    terminal_settle(terminal);
    return terminal;
}

static struct terminal_cell role_cell(struct terminal *terminal, const char *role)
{
    int row = terminal_find(terminal, role, NULL);
    assert_true(row >= 0);
    return terminal_cell(terminal, row, 0);
}

static bool any_colour(struct terminal *terminal)
{
    for (int row = 0; row < 24; row++) {
        for (int column = 0; column < 80; column++) {
            struct terminal_cell cell = terminal_cell(terminal, row, column);
            if (cell.foreground != -1 || cell.background != -1) {
                return true;
            }
        }
    }
    return false;
}

static void check_mono_attributes(struct terminal *terminal)
{
    terminal_check(terminal, role_cell(terminal, "ROLE_CELL").reverse);
    terminal_check(terminal, role_cell(terminal, "ROLE_TAB_NOW").reverse);
    terminal_check(terminal, role_cell(terminal, "ROLE_CAUTION").reverse);
    terminal_check(terminal, role_cell(terminal, "ROLE_OFF").bold);
    terminal_check(terminal, role_cell(terminal, "ROLE_KEY").bold);
    terminal_check(terminal, role_cell(terminal, "ROLE_ASSUMED").underline);
    terminal_check(terminal, role_cell(terminal, "ROLE_ENTRY").underline);
    struct terminal_cell plain = role_cell(terminal, "ROLE_TEXT");
    terminal_check(terminal, !plain.bold && !plain.reverse && !plain.underline);
}

static void test_mono(void **state)
{
    (void)state;
    static const char *const no_color[] = {"NO_COLOR=1", NULL};
    struct terminal *terminal = start_roles("xterm-256color", no_color);
    terminal_check(terminal, !any_colour(terminal));
    check_mono_attributes(terminal);
    terminal = start_roles("vt100", NULL);
    terminal_check(terminal, !any_colour(terminal));
    check_mono_attributes(terminal);
}

static void test_colours(void **state)
{
    (void)state;
    static const char *const empty[] = {"NO_COLOR=", NULL}; /* empty means nothing */
    struct terminal *terminal = start_roles("xterm-256color", empty);
    terminal_check(terminal, role_cell(terminal, "ROLE_GOOD").foreground == 28);
    terminal_check(terminal, role_cell(terminal, "ROLE_CAUTION").foreground == 160);
    terminal_check(terminal, role_cell(terminal, "ROLE_TEXT").foreground == -1);
    terminal_check(terminal, role_cell(terminal, "ROLE_TEXT").background == -1);
    terminal_check(terminal, role_cell(terminal, "ROLE_CELL").reverse);
    terminal = start_roles("xterm", NULL);
    terminal_check(terminal, role_cell(terminal, "ROLE_GOOD").foreground == 2);
    terminal_check(terminal, role_cell(terminal, "ROLE_CAUTION").foreground == 1);
    terminal_check(terminal, role_cell(terminal, "ROLE_GOOD").background == -1);
}

static void expect_traits(const char *term, const char *const *env, const char *want)
{
    struct terminal *terminal = probe_start_with((struct terminal_setup){.term = term, .env = env});
    terminal_expect(terminal, want);
}

static void test_traits(void **state)
{
    (void)state;
    static const char *const no_color[] = {"NO_COLOR=1", NULL};
    expect_traits("xterm-256color", NULL, "24x80 utf8 colours=256");
    expect_traits("xterm", NULL, "24x80 utf8 colours=8");
    expect_traits("linux", NULL, "24x80 utf8 colours=8");
    expect_traits("vt100", NULL, "24x80 utf8 colours=0");
    expect_traits("xterm-256color", no_color, "24x80 utf8 colours=0");
}

static void test_cursor(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    int row, column;
    bool visible;
    terminal_settle(terminal);
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, !visible);
    terminal_type(terminal, "abc");
    terminal_expect(terminal, "a b c");
    terminal_settle(terminal);
    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible && row == 2 && column == 6);
}

static void test_repaint(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    terminal_settle(terminal);
    size_t before = terminal_bytes(terminal);
    terminal_signal(terminal, SIGWINCH); /* no new size: nothing to send */
    terminal_settle(terminal);
    assert_int_equal(terminal_bytes(terminal), before);
    terminal_type(terminal, CTRL('r'));
    terminal_expect(terminal, "keys=0 ");
    terminal_settle(terminal);
    terminal_check(terminal, terminal_bytes(terminal) > before + 40);
}

/* --- changes --- */

enum { ROWS = 24, COLUMNS = 80 };

struct screen {
    struct terminal_cell cells[ROWS][COLUMNS];
    int row, column;
    bool cursor;
};

static void look(struct terminal *terminal, struct screen *ret_screen)
{
    terminal_settle(terminal);
    for (int row = 0; row < ROWS; row++) {
        for (int column = 0; column < COLUMNS; column++) {
            ret_screen->cells[row][column] = terminal_cell(terminal, row, column);
        }
    }
    terminal_cursor(terminal, &ret_screen->row, &ret_screen->column, &ret_screen->cursor);
}

static bool same_text(const char *a, const char *b)
{
    return strcmp(a, b) == 0 || strspn(a, " ") + strspn(b, " ") == strlen(a) + strlen(b);
}

/* A blank has no look but for what shows without a character. */
static bool same_cell(const struct terminal_cell *a, const struct terminal_cell *b)
{
    const bool blank = same_text(a->text, "");

    return same_text(a->text, b->text) && a->reverse == b->reverse &&
           a->underline == b->underline && a->background == b->background &&
           (blank ||
            (a->width == b->width && a->bold == b->bold && a->foreground == b->foreground));
}

static void check_same(struct terminal *terminal, const struct screen *a, const struct screen *b)
{
    for (int row = 0; row < ROWS; row++) {
        /* Of a wide character the left half says all. */
        for (int column = 0; column < COLUMNS; column += b->cells[row][column].width) {
            if (!same_cell(&a->cells[row][column], &b->cells[row][column])) {
                print_error("row %d, column %d\n", row, column);
                terminal_check(terminal, false); /* else than painted anew */
            }
        }
    }
    terminal_check(terminal, a->cursor == b->cursor);
    terminal_check(terminal, !a->cursor || (a->row == b->row && a->column == b->column));
}

static struct terminal *start_chance(const char *term)
{
    struct terminal *terminal = probe_start(term);

    for (int i = 0; i < 6; i++) {
        terminal_type(terminal, CTRL('f'));
    }
    terminal_expect(terminal, "page chance");
    return terminal;
}

/* Change upon change shows what painting the last frame on an empty screen does. */
static void check_changes(const char *term)
{
    enum { ROUNDS = 25, KEYS = 4 };
    static struct screen changed, anew;
    struct terminal *terminal = start_chance(term);

    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < KEYS; i++) {
            terminal_type(terminal, "n");
        }
        look(terminal, &changed);
        const size_t before = terminal_bytes(terminal);
        terminal_type(terminal, CTRL('r'));
        look(terminal, &anew);
        terminal_check(terminal, terminal_bytes(terminal) > before + 100);
        check_same(terminal, &changed, &anew);
    }
}

static void test_changes(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (!probe_skips(probe_terms[i])) {
            check_changes(probe_terms[i]);
        }
    }
}

/* No half of a change is ever seen: it is one write, a whole screen too. */
static void test_one_write(void **state)
{
    (void)state;
    struct terminal *terminal = start_chance("xterm-256color");
    terminal_settle(terminal);
    if (terminal_writes(terminal) < 0) {
        skip(); /* this system does not tell */
    }
    for (int i = 0; i < 12; i++) {
        const size_t bytes = terminal_bytes(terminal);
        const long before = terminal_writes(terminal);

        terminal_type(terminal, i % 4 == 3 ? CTRL('r') : "n");
        terminal_settle(terminal);
        terminal_check(terminal, terminal_bytes(terminal) > bytes);
        assert_int_equal(terminal_writes(terminal) - before, 1);
    }
}

/* --- how fast --- */

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* From a key on the line to the bytes that answer it, one cell changed. The limits are far
 * from what an idle machine does; they only catch a wait that should not be there. */
static void test_latency_and_bytes(void **state)
{
    (void)state;
    enum { KEYS = 2000 };
    static double taken_us[KEYS];
    struct terminal *terminal = probe_start("xterm-256color");
    for (int i = 0; i < 5; i++) {
        terminal_type(terminal, CTRL('f'));
    }
    terminal_expect(terminal, "page cell");
    terminal_settle(terminal);
    size_t before = terminal_bytes(terminal);
    for (int i = 0; i < KEYS; i++) {
        double start_s = probe_now_s();
        terminal_type(terminal, i % 2 == 0 ? "1" : "2");
        terminal_check(terminal, terminal_pump(terminal, 1000));
        taken_us[i] = 1e6 * (probe_now_s() - start_s);
    }
    terminal_settle(terminal);
    double bytes = (double)(terminal_bytes(terminal) - before) / KEYS;
    qsort(taken_us, KEYS, sizeof taken_us[0], by_value);
    print_message("key to bytes: median %.0f us, p99 %.0f us; %.1f bytes for one cell\n",
                  taken_us[KEYS / 2], taken_us[KEYS * 99 / 100], bytes);
    terminal_check(terminal, taken_us[KEYS / 2] < 20000.0);
    terminal_check(terminal, bytes <= 20.0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        PROBE_CASE(test_text),
        PROBE_CASE(test_text_without_utf8),
        PROBE_CASE(test_oversize_frame),
        PROBE_CASE(test_mono),
        PROBE_CASE(test_colours),
        PROBE_CASE(test_traits),
        PROBE_CASE(test_cursor),
        PROBE_CASE(test_repaint),
        PROBE_CASE(test_changes),
        PROBE_CASE(test_one_write),
        PROBE_CASE(test_latency_and_bytes),
    };
    if (!probe_set_up(argc, argv)) {
        return 2;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
