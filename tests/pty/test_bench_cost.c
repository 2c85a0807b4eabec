/* SPDX-License-Identifier: MIT */

/* What a key costs the line to the terminal: one write, and few bytes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"

/* Presses a key that files nothing; returns the bytes it painted, in one write. */
static size_t press(struct terminal *terminal, const char *key)
{
    const size_t bytes = terminal_bytes(terminal);
    const long writes = terminal_writes(terminal);

    terminal_type(terminal, key);
    terminal_settle(terminal);
    terminal_check(terminal, terminal_bytes(terminal) > bytes);
    terminal_check(terminal, writes < 0 || terminal_writes(terminal) - writes == 1);
    return terminal_bytes(terminal) - bytes;
}

#define UP    "\033OA"
#define DOWN  "\033OB"
#define RIGHT "\033OC"
#define LEFT  "\033OD"

/* In bytes, of `count` keys each. */
static size_t mean_of(struct terminal *terminal, const char *const *keys, int count)
{
    size_t bytes = 0;

    for (int i = 0; i < count; i++)
        bytes += press(terminal, keys[i]);
    print_message("an arrow: %zu bytes\n", bytes / (size_t)count);
    return bytes / (size_t)count;
}

/* An arrow goes to a cell with another name, help, value in other units and place in the picture:
 * half of the bytes are these words and marks, a third says where they go, the rest how they look.
 * A whole screen is 2300. */
static void test_an_arrow(void **state)
{
    static const char *const down[] = {DOWN, DOWN, DOWN, UP, UP, UP};
    static const char *const across[] = {RIGHT, RIGHT, RIGHT, LEFT, LEFT, LEFT};
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);
    terminal_settle(terminal);
    terminal_check(terminal, mean_of(terminal, down, 6) <= 240);
    (void)press(terminal, DOWN);
    terminal_check(terminal, mean_of(terminal, across, 6) <= 220);
}

/* Typing, and turning the leaf, whose new screen is most of what there is. */
static void test_other_keys(void **state)
{
    static const struct {
        const char *key;
        size_t bytes;
    } keys[] = {{".", 270}, {"0", 1500}, {"1", 1700}, {"\025", 1300}, {"\t", 3600}, {"?", 4000}};
    struct bench *bench = *state;

    bench_copy(bench, "worked-example.ini");
    struct terminal *terminal = bench_start(bench);
    terminal_settle(terminal);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const size_t bytes = press(terminal, keys[i].key);

        print_message("key %zu: %zu bytes\n", i + 1, bytes);
        terminal_check(terminal, bytes <= keys[i].bytes);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(test_an_arrow),
        BENCH_CASE(test_other_keys),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
