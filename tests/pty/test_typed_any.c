/* SPDX-License-Identifier: MIT */

/*
 * Any keys at the real program: a new line in the file holds what was in the entry line
 * when Enter was pressed.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"
#include "seeded.h"

enum { KEYS = 240, PROMPT_ROW = 22, LINE_MAX_ = 200 };

/* The number that stands behind the prompt, as far as it was typed; "" where nothing is. */
static void find_entry(struct terminal *terminal, char *out, size_t size)
{
    const char *row = terminal_row(terminal, PROMPT_ROW);
    const char *at = strstr(row, " > ");

    out[0] = '\0';
    if (!at || at[3] == ' ')
        return;
    at += 3;
    snprintf(out, size, "%.*s", (int)strcspn(at, " "), at);
}

/* Lines that say when and how, and the file's own. */
static bool is_company(const char *line)
{
    static const char *const keys[] = {
        "time = ",  "label = ", "date = ", "nut_method = ", "passes = ", "lines = ",
        "crc32 = ", "crc = ",   "["};

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strncmp(line, keys[i], strlen(keys[i])) == 0)
            return true;
    return line[0] == '\0';
}

static bool has_line(const char *bytes, const char *line)
{
    const size_t length = strlen(line);

    for (const char *at = bytes; (at = strstr(at, line)); at++)
        if ((at == bytes || at[-1] == '\n') && (at[length] == '\n' || at[length] == '\0'))
            return true;
    return false;
}

/* Every reading that the file has now and had not before begins with what was typed. A comma is
 * kept as a point. */
static void check_file(struct bench *bench, const char *before, const char *entry)
{
    char *after = tree_read(bench->profile, NULL);
    char typed[LINE_MAX_];

    snprintf(typed, sizeof typed, "%s", entry);
    for (char *c = typed; *c; c++)
        if (*c == ',')
            *c = '.';
    for (const char *at = after; *at; at += strcspn(at, "\n"), at += *at == '\n') {
        char line[LINE_MAX_];

        snprintf(line, sizeof line, "%.*s", (int)strcspn(at, "\n"), at);
        const char *value = strstr(line, " = ");
        if (is_company(line) || has_line(before, line) || !value)
            continue;
        value += 3;
        if (typed[0] == '\0' || strncmp(value, typed, strlen(typed)) != 0) {
            print_error("\"%s\" was filed, \"%s\" was shown\n", line, entry);
            terminal_fail_at(bench->terminal, "filed", __FILE__, __LINE__);
        }
    }
    free(after);
}

static void read_lines(struct terminal *terminal, char *out, size_t size)
{
    size_t length = 0;

    out[0] = '\0';
    for (int row = PROMPT_ROW - 1; row <= PROMPT_ROW + 1; row++)
        length +=
            (size_t)snprintf(out + length, size - length, "%s\n", terminal_row(terminal, row));
}

/* Every key shows in the lines of the entry, once all that it asks for is done, but one that
 * does nothing. While a disk is waited for, the program looks as if it had nothing more to say. */
static void press(struct terminal *terminal, const char *key)
{
    enum { LOOKS = 8 };
    char before[2048], now[2048];

    read_lines(terminal, before, sizeof before);
    terminal_type(terminal, key);
    for (int i = 0; i < LOOKS; i++) {
        terminal_settle(terminal);
        read_lines(terminal, now, sizeof now);
        if (strcmp(before, now) != 0)
            return;
    }
}

static void press_one(struct bench *bench, struct seeded *seed, int *filed)
{
    static const char keys[] = "0123456789.,/\r\r\r\r\r\r\r\r\r\r\r\r\177 ";
    const char key[] = {keys[seeded_whole(seed, 0, sizeof keys - 2)], '\0'};
    char entry[LINE_MAX_];
    char *before = tree_read(bench->profile, NULL);

    find_entry(bench->terminal, entry, sizeof entry);
    press(bench->terminal, key);
    char *after = tree_read(bench->profile, NULL);
    const bool changed = strcmp(before, after) != 0;
    if (changed && key[0] != '\r')
        terminal_fail_at(bench->terminal, "a key other than Enter filed something", __FILE__,
                         __LINE__);
    if (changed)
        check_file(bench, before, entry);
    *filed += changed;
    free(before);
    free(after);
}

static void any_keys_file_what_is_shown(void **state)
{
    struct bench *bench = *state;
    struct seeded seed = seeded_start("typed");
    int filed = 0;

    bench_start_worked(bench);
    terminal_settle(bench->terminal);
    for (int i = 0; i < KEYS; i++) {
        if (i % 40 == 39) {
            terminal_key(bench->terminal, TERMINAL_HOME);
            terminal_settle(bench->terminal);
        }
        press_one(bench, &seed, &filed);
    }
    print_message("%d filed\n", filed);
    assert_true(filed > 9);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(any_keys_file_what_is_shown),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
