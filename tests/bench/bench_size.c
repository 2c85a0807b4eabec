/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "big_profile.h"
#include "columns.h"
#include "percentile.h"
#include "timed.h"

/*
 * What the programs cost against the size of their work: one record of 1 to 1000 visits, and a
 * shelf of 100 to 10 000 instruments, or 50 000 with `large`. Each row has the cost at every size,
 * in ms, and between two sizes the exponent p of cost = size^p: 1 grows as the work does. Where the
 * bare program can do what the row cannot do without, its cost is beside it. Prints tables; no time
 * is a failure.
 *
 *     bench_size [large] BARE SILLET...
 */
enum { SIZES_MAX = 4, TIMES = 5, PROFILES_IN_ONE_CALL = 1000 };

#define HISTORY "\x1B[19~"
#define BENCH   "\x1BOQ\x1BOH"

struct sizes {
    int size[SIZES_MAX], count;
};

/* The median cost of one piece of work of a size, on files of its own; negative if it cannot be
 * done. */
typedef double cost(const char *program, int size);

static double median_of(double *values, size_t count)
{
    percentile_sort(values, count);
    return percentile_of(values, count, 50);
}

/* A file that is written once and named after its size. */
static const char *record_of(int visits)
{
    static char path[300];
    struct stat facts;

    snprintf(path, sizeof path, "%s/visits-%d.ini", columns_home(), visits);
    if (stat(path, &facts) != 0)
        big_profile_write(path, visits, 0);
    return path;
}

static double cost_of_start(const char *program, int visits)
{
    const char *const argv[] = {program, record_of(visits), NULL};
    double ms[TIMES];

    for (int i = 0; i < TIMES; i++) {
        struct timed timed = timed_start(argv, "[Bench]");

        ms[i] = timed.first_ms;
        timed_stop(&timed);
    }
    return median_of(ms, TIMES);
}

/* `before` and `key` by turns, so that each round changes something. */
static double cost_of_key(const char *program, int visits, const char *const before[2],
                          const char *key, const char *after)
{
    const char *const argv[] = {program, record_of(visits), NULL};
    struct timed timed = timed_start(argv, "[Bench]");
    double ms[2 * TIMES];

    for (int i = 0; i < 2 * TIMES; i++) {
        timed_key(&timed, before[i % 2]);
        ms[i] = timed_key(&timed, key).last_ms;
        if (after[0])
            timed_key(&timed, after);
    }
    timed_stop(&timed);
    return median_of(ms, 2 * (size_t)TIMES);
}

static double cost_of_digit(const char *program, int visits)
{
    const char *const before[2] = {BENCH, BENCH};

    return cost_of_key(program, visits, before, "2", "\x7F");
}

static double cost_of_enter(const char *program, int visits)
{
    const char *const before[2] = {BENCH ".012", BENCH ".011"};

    return cost_of_key(program, visits, before, "\r", "");
}

static double cost_of_history(const char *program, int visits)
{
    const char *const before[2] = {HISTORY, HISTORY};

    return cost_of_key(program, visits, before, "\x1BOD", "\x1BOC");
}

static double cost_of_command(const char *const *argv)
{
    double ms[TIMES];

    for (int i = 0; i < TIMES; i++)
        ms[i] = timed_run(argv);
    return median_of(ms, TIMES);
}

static double cost_of_check(const char *program, int visits)
{
    const char *const argv[] = {program, "check", record_of(visits), NULL};

    return cost_of_command(argv);
}

static double cost_of_figures(const char *program, int visits)
{
    const char *const argv[] = {program, "figures", record_of(visits), NULL};

    return cost_of_command(argv);
}

static double cost_of_all_visits(const char *program, int visits)
{
    const char *const argv[] = {program, "figures", "--all-visits", record_of(visits), NULL};

    return timed_run(argv);
}

static double cost_of_pdf(const char *program, int visits)
{
    static char out[300];
    const char *const argv[] = {program, "sheet", "-o", out, record_of(visits), NULL};

    snprintf(out, sizeof out, "%s/sheet.pdf", columns_home());
    remove(out);
    const double ms = timed_run(argv);
    return ms;
}

/* --- many profiles --- */

static const char *shelf_of(int profiles)
{
    static char folder[300];
    char path[340];
    struct stat facts;
    const struct timespec until_settled = {.tv_sec = 4};

    snprintf(folder, sizeof folder, "%s/shelf-%d", columns_home(), profiles);
    if (stat(folder, &facts) == 0)
        return folder;
    mkdir(folder, 0700);
    for (int i = 0; i < profiles; i++) {
        snprintf(path, sizeof path, "%s/instrument-%06d.ini", folder, i);
        big_profile_write(path, 1 + i % 3, 0);
    }
    /* A file touched this very moment is not kept in the cache. */
    nanosleep(&until_settled, NULL);
    return folder;
}

static void forget_cache(void)
{
    char command[400];

    snprintf(command, sizeof command, "rm -rf '%s/.cache'", columns_home());
    if (system(command) != 0)
        exit(2);
}

static double cost_without_cache(const char *program, int profiles)
{
    const char *const argv[] = {program, "--shelf", shelf_of(profiles), NULL};

    forget_cache();
    struct timed timed = timed_start(argv, "Much measured");
    timed_stop(&timed);
    return timed.last_ms;
}

/* On the first screen, before any instrument's name may be. */
#define SHELF_TITLE "instruments on file"

/* Until the last file is listed. What has to be worked out of them comes behind the keys. */
static double cost_until_listed(const char *program, int profiles)
{
    const char *const argv[] = {program, "--shelf", shelf_of(profiles), NULL};

    forget_cache();
    struct timed timed = timed_begin(argv, SHELF_TITLE);
    const double ms = timed_until(&timed, "work out");
    timed_stop(&timed);
    return ms;
}

/* Keys of a search pressed as soon as anything is listed. */
static double cost_of_search_in_reading(const char *program, int profiles)
{
    const char *const argv[] = {program, "--shelf", shelf_of(profiles), NULL};
    double ms[2 * TIMES];

    forget_cache();
    struct timed timed = timed_begin(argv, SHELF_TITLE);
    for (int i = 0; i < 2 * TIMES; i++)
        ms[i] = timed_reply(&timed, i % 2 ? "\x7F" : "m");
    timed_stop(&timed);
    return median_of(ms, 2 * (size_t)TIMES);
}

/* The cache is that of the same program. */
static double cost_with_cache(const char *program, int profiles)
{
    const char *const argv[] = {program, "--shelf", shelf_of(profiles), NULL};
    double ms[TIMES];

    (void)cost_without_cache(program, profiles);
    for (int i = 0; i < TIMES; i++) {
        struct timed timed = timed_start(argv, "Much measured");

        ms[i] = timed.first_ms;
        timed_stop(&timed);
    }
    return median_of(ms, TIMES);
}

static double cost_of_search(const char *program, int profiles)
{
    const char *const argv[] = {program, "--shelf", shelf_of(profiles), NULL};
    struct timed timed = timed_start(argv, "Much measured");
    double ms[TIMES];

    for (int i = 0; i < TIMES; i++) {
        ms[i] = timed_key(&timed, "m").last_ms;
        timed_key(&timed, "\x7F");
    }
    timed_stop(&timed);
    return median_of(ms, TIMES);
}

static double cost_of_many(const char *program, int profiles)
{
    static char paths[PROFILES_IN_ONE_CALL][340];
    const char *argv[PROFILES_IN_ONE_CALL + 3] = {program, "figures"};
    const char *folder = shelf_of(profiles);
    const int count = profiles < PROFILES_IN_ONE_CALL ? profiles : PROFILES_IN_ONE_CALL;

    for (int i = 0; i < count; i++) {
        snprintf(paths[i], sizeof paths[i], "%s/instrument-%06d.ini", folder, i);
        argv[2 + i] = paths[i];
    }
    return timed_run(argv);
}

/* --- the bare program --- */

static double bare_start(const char *program, int visits)
{
    const char *const argv[] = {program, columns_home(), NULL};
    double ms[TIMES];

    (void)visits;
    for (int i = 0; i < TIMES; i++) {
        struct timed timed = timed_start(argv, "q quit");

        ms[i] = timed.first_ms;
        timed_stop(&timed);
    }
    return median_of(ms, TIMES);
}

static double bare_key(const char *program, const char *key)
{
    const char *const argv[] = {program, columns_home(), NULL};
    struct timed timed = timed_start(argv, "q quit");
    double ms[2 * TIMES];

    for (int i = 0; i < 2 * TIMES; i++)
        ms[i] = timed_key(&timed, key).last_ms;
    timed_stop(&timed);
    return median_of(ms, 2 * (size_t)TIMES);
}

static double bare_digit(const char *program, int visits)
{
    (void)visits;
    return bare_key(program, "2");
}

static double bare_enter(const char *program, int visits)
{
    (void)visits;
    return bare_key(program, "\r");
}

static double bare_arrow(const char *program, int visits)
{
    (void)visits;
    return bare_key(program, "\x1BOB");
}

static double bare_stat(const char *program, int profiles)
{
    const char *const argv[] = {program, shelf_of(profiles), "stat", NULL};

    return cost_of_command(argv);
}

static double bare_read(const char *program, int profiles)
{
    const char *const argv[] = {program, shelf_of(profiles), "read", NULL};

    return cost_of_command(argv);
}

struct row {
    const char *name;
    cost *cost;
    cost *bare; /* NULL: it cannot do the like */
};

static void measure(const char *row, cost *of, const struct sizes *sizes, const char *program,
                    const char *name)
{
    double ms[SIZES_MAX];

    printf("  %-28s %-9s", row, name);
    for (int i = 0; i < sizes->count; i++) {
        ms[i] = of(program, sizes->size[i]);
        printf(i > 0 ? " " : "");
        if (i > 0)
            columns_print_exponent(sizes->size[i - 1], ms[i - 1], sizes->size[i], ms[i]);
        if (ms[i] < 0)
            printf("%10s", "-");
        else
            printf("%10.2f", ms[i]);
    }
    printf("\n");
    fflush(stdout);
}

static void measure_all(const char *title, const struct row *rows, size_t row_count,
                        const struct sizes *sizes, char **programs, int count)
{
    printf("\n%s: ms, and the exponent from size to size\n%-40s", title, "");
    for (int i = 0; i < sizes->count; i++)
        printf(i > 0 ? "%17d" : "%10d", sizes->size[i]);
    printf("\n");
    for (size_t r = 0; r < row_count; r++)
        for (int i = 0; i < count; i++) {
            cost *const of = i > 0 ? rows[r].cost : rows[r].bare;
            char name[16] = "bare";

            if (i > 0)
                snprintf(name, sizeof name, i > 1 ? "sillet %d" : "sillet", i);
            if (of)
                measure(rows[r].name, of, sizes, programs[i], name);
        }
}

int main(int count, char **words)
{
    static const struct row visits[] = {
        {"start to the first screen", cost_of_start, bare_start},
        {"a digit", cost_of_digit, bare_digit},
        {"Enter: kept on disk", cost_of_enter, bare_enter},
        {"an arrow on History", cost_of_history, bare_arrow},
        {"check", cost_of_check, NULL},
        {"figures", cost_of_figures, NULL},
        {"figures --all-visits", cost_of_all_visits, NULL},
        {"the sheet as PDF", cost_of_pdf, NULL},
    };
    static const struct row profiles[] = {
        {"no cache: all are listed", cost_until_listed, bare_read},
        {"a search key meanwhile", cost_of_search_in_reading, NULL},
        {"no cache: all is worked out", cost_without_cache, bare_read},
        {"shelf with a cache", cost_with_cache, bare_stat},
        {"a key of a search", cost_of_search, NULL},
        {"figures of up to 1000", cost_of_many, NULL},
    };
    const struct sizes of_visits = {.size = {1, 10, 100, 1000}, .count = 4};
    struct sizes of_profiles = {.size = {100, 1000, 10000, 50000}, .count = 3};

    const int first = count > 1 && strcmp(words[1], "large") == 0 ? 2 : 1;
    if (count <= first + 1) {
        fprintf(stderr, "usage: %s [large] BARE SILLET...\n", words[0]);
        return 2;
    }
    of_profiles.count += first == 2;
    measure_all("One record, by visits", visits, sizeof visits / sizeof visits[0], &of_visits,
                words + first, count - first);
    measure_all("A shelf, by profiles", profiles, sizeof profiles / sizeof profiles[0],
                &of_profiles, words + first, count - first);
    columns_remove_home();
    return 0;
}
