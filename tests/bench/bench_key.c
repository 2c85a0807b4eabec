/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "near.h"
#include "percentile.h"
#include "terminal.h"
#include "tree.h"

/*
 * The program's speed as the user sees it, on a pseudo-terminal: from a key to the first byte of
 * the new screen, the bytes sent for a key, from the start to the first screen,
 * and the memory held. Prints a table; no time is a failure.
 *
 *     bench_key SILLET PROFILE
 */
enum { STARTS = 20, ROUNDS = 100, WAIT_MS = 2000 };

struct kind {
    const char *name;
    const char *before; /* typed first, not measured */
    const char *key;    /* one key, as the terminal sends it */
};

static const struct kind kinds[] = {
    {"a digit of an entry", "", "2"}, {"taking it back", "", "\x7F"},
    {"the next cell", "", "\r"},      {"a reading, kept on disk", ".012", "\r"},
    {"undo, kept on disk", "", "u"},  {"the keys", "", "h"},
    {"closing them", "", "h"},        {"one row down", "", "\x1BOB"},
    {"metric gauges", "", "m"},       {"inch gauges", "", "m"},
};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

struct sample {
    double ms[ROUNDS], bytes[ROUNDS];
};

static double now_ms(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static struct terminal *start(const char *program, const char *profile, int rows, int columns)
{
    const char *const argv[] = {program, profile, NULL};
    const struct terminal_setup setup = {.argv = argv, .rows = rows, .columns = columns};

    return terminal_start(&setup);
}

static void measure_key(struct terminal *terminal, const struct kind *kind, struct sample *sample,
                        int round)
{
    if (kind->before[0]) {
        terminal_type(terminal, kind->before);
        terminal_settle(terminal);
    }
    const size_t bytes = terminal_bytes(terminal);
    const double from = now_ms();
    terminal_type(terminal, kind->key);
    terminal_pump(terminal, WAIT_MS);
    sample->ms[round] = now_ms() - from;
    terminal_settle(terminal);
    sample->bytes[round] = (double)(terminal_bytes(terminal) - bytes);
}

static void print_sample(const char *name, struct sample *sample)
{
    percentile_sort(sample->ms, ROUNDS);
    percentile_sort(sample->bytes, ROUNDS);
    printf("  %-26s %8.2f %8.2f   %6.0f %6.0f\n", name, percentile_of(sample->ms, ROUNDS, 50),
           percentile_of(sample->ms, ROUNDS, 99), percentile_of(sample->bytes, ROUNDS, 50),
           percentile_of(sample->bytes, ROUNDS, 99));
}

/* "VmRSS:	    1234 kB" of a process; -1 where the system does not tell. */
static long memory_kb(pid_t process, const char *what)
{
    char path[64], line[256];
    long kb = -1;

    snprintf(path, sizeof path, "/proc/%ld/status", (long)process);
    FILE *file = fopen(path, "r");
    if (!file)
        return -1;
    while (fgets(line, sizeof line, file))
        if (strncmp(line, what, strlen(what)) == 0 && line[strlen(what)] == ':')
            kb = strtol(line + strlen(what) + 1, NULL, 10);
    fclose(file);
    return kb;
}

static void measure_keys(const char *program, const char *profile, int rows, int columns)
{
    static struct sample samples[KINDS];
    struct terminal *terminal = start(program, profile, rows, columns);

    terminal_expect(terminal, "[Bench]");
    terminal_settle(terminal);
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < KINDS; i++)
            measure_key(terminal, &kinds[i], &samples[i], round);
        terminal_key(terminal, TERMINAL_HOME);
        terminal_settle(terminal);
    }
    printf("%dx%d, %d times each        ms to the first byte    bytes sent\n"
           "                               median     99 %%   median   99 %%\n",
           columns, rows, ROUNDS);
    for (int i = 0; i < KINDS; i++)
        print_sample(kinds[i].name, &samples[i]);
    printf("  memory resident %ld kB, at most %ld kB\n\n",
           memory_kb(terminal_pid(terminal), "VmRSS"), memory_kb(terminal_pid(terminal), "VmHWM"));
    terminal_stop(terminal);
}

static void measure_starts(const char *program, const char *profile)
{
    double ms[STARTS];

    for (int i = 0; i < STARTS; i++) {
        const double from = now_ms();
        struct terminal *terminal = start(program, profile, 24, 80);

        terminal_expect(terminal, "q quit");
        ms[i] = now_ms() - from;
        terminal_stop(terminal);
    }
    percentile_sort(ms, STARTS);
    printf("start to the first whole screen, %d times: median %.1f ms, at most %.1f ms\n\n", STARTS,
           percentile_of(ms, STARTS, 50), percentile_of(ms, STARTS, 100));
}

/* The profile is saved to, so a copy is worked on. */
static const char *copy_profile(const struct tree *tree, const char *path)
{
    size_t length;
    char *bytes = tree_read(path, &length);
    const char *copy = tree_path(tree, "profile.ini");

    assert_non_null(bytes);
    tree_write(copy, bytes, length);
    free(bytes);
    return copy;
}

static const char *program_path, *profile_path;

static void bench_key(void **state)
{
    const char *profile = copy_profile(*state, profile_path);

    measure_starts(program_path, profile);
    measure_keys(program_path, profile, 24, 80);
    measure_keys(program_path, profile, 43, 132);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(bench_key, tree_setup, tree_teardown),
    };

    if (argc != 3) {
        fprintf(stderr, "usage: %s SILLET PROFILE\n", argv[0]);
        return 2;
    }
    program_path = argv[1];
    profile_path = argv[2];
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
