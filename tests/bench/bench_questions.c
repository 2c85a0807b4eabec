/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "columns.h"
#include "many_shop.h"
#include "percentile.h"
#include "timed.h"

/*
 * What a shop asks its shelf, of 40, 1000 and 10 000 instruments of the made-up shop: how many keys
 * a question takes, the slowest of them and all of them together until the answer stands on the
 * screen; and the same question on the command line, its start and the cache's reading included.
 * Times in ms, medians. No time is a failure.
 *
 *     bench_questions SILLET
 */
enum { SHOP = 40, TIMES = 5, KEYS_MAX = 12, WORDS_MAX = 4 };

#define RIGHT  "\x1BOC"
#define LEFT   "\x1BOD"
#define ESCAPE "\x1B"

struct question {
    const char *name;
    const char *keys[KEYS_MAX];
    const char *words[WORDS_MAX]; /* after `sillet shelf`; none: there is no such command */
    const char *command;          /* NULL: shelf */
};

static const struct question questions[] = {
    {"what is in the house?", {"*", "i"}, {"--house"}, NULL},
    {"what is due?", {"*", "d"}, {"--due"}, NULL},
    {"where is little saddle left?", {"*", ".", "1"}, {"--saddle"}, NULL},
    {"which rods have nothing left?", {"*", ".", "2"}, {"--rods"}, NULL},
    {"what do we usually set?", {"*", "v"}, {"--usual"}, NULL},
    {"what does a quarter turn do?", {"*", ".", "3"}, {"--turns"}, NULL},
    {"how right were we?", {"*", ".", "4"}, {"--proof"}, NULL},
    {"what was done last?", {"*", "j", LEFT}, {"2026-11-20"}, "journal"},
    {"and in that month?", {"*", "j", LEFT, "\r"}, {"2026-11"}, "journal"},
    {"one by its ticket, as last left",
     {"1", "7", "4", "1", "6", RIGHT},
     {"--left", "17416"},
     NULL},
    {"and the visit before", {"k", "i", "f", "f", LEFT}, {"--when", "2026-04", "kiff"}, NULL},
    {"one by a part of its name", {"k", "i", "f", "f"}, {"kiff"}, NULL},
    {"one by owner and kind", {"u", "n", "a", " ", "c", "l"}, {"una cl"}, NULL},
};

enum { QUESTIONS = sizeof questions / sizeof questions[0] };

static char folder[300];

static void make_shop(const char *program, int size)
{
    char small[300];
    const char *const argv[] = {program, "demo", "--until", "2026-11-20", small, NULL};
    struct stat facts;
    const struct timespec until_settled = {.tv_sec = 4};

    snprintf(small, sizeof small, "%s/shop", columns_home());
    if (stat(small, &facts) != 0)
        (void)timed_run(argv);
    snprintf(folder, sizeof folder, "%s/shop-%d", columns_home(), size);
    if (many_shop_make(small, folder, size / SHOP) != size) {
        fprintf(stderr, "bench: no shop of %d\n", size);
        exit(2);
    }
    /* A file touched this very moment is not kept in the cache. */
    nanosleep(&until_settled, NULL);
}

static double median_of(double *values)
{
    percentile_sort(values, TIMES);
    return percentile_of(values, TIMES, 50);
}

/* Esc after each time: back to the whole list. */
static void ask_on_screen(struct timed *timed, const struct question *question, int *ret_keys,
                          double *ret_slowest, double *ret_all)
{
    double slowest[TIMES], all[TIMES];

    for (int i = 0; i < TIMES; i++) {
        slowest[i] = all[i] = 0;
        for (*ret_keys = 0; question->keys[*ret_keys]; ++*ret_keys) {
            const double ms = timed_key(timed, question->keys[*ret_keys]).last_ms;

            slowest[i] = ms > slowest[i] ? ms : slowest[i];
            all[i] += ms;
        }
        for (int back = 0; back < 3; back++)
            timed_key(timed, ESCAPE);
    }
    *ret_slowest = median_of(slowest);
    *ret_all = median_of(all);
}

static double ask_by_command(const char *program, const struct question *question)
{
    const char *argv[5 + WORDS_MAX] = {program, question->command ? question->command : "shelf",
                                       "--shelf", folder};
    double ms[TIMES];

    for (int i = 0; question->words[i]; i++)
        argv[4 + i] = question->words[i];
    for (int i = 0; i < TIMES; i++)
        ms[i] = timed_run(argv);
    return median_of(ms);
}

static void measure(const char *program, int size)
{
    make_shop(program, size);
    const char *const argv[] = {program, "--shelf", folder, NULL};
    struct timed timed = timed_start(argv, "on file");

    printf("\n%d instruments (read in %.0f ms)\n%-34s%6s%10s%10s%10s\n", size, timed.last_ms,
           "  question", "keys", "slowest", "all", "command");
    for (int i = 0; i < QUESTIONS; i++) {
        double slowest, all;
        int keys;

        ask_on_screen(&timed, &questions[i], &keys, &slowest, &all);
        printf("  %-32s%6d%10.2f%10.2f%10.2f\n", questions[i].name, keys, slowest, all,
               ask_by_command(program, &questions[i]));
        fflush(stdout);
    }
    timed_stop(&timed);
}

int main(int count, char **words)
{
    static const int sizes[] = {SHOP, 1000, 10000};

    if (count != 2) {
        fprintf(stderr, "usage: %s SILLET\n", words[0]);
        return 2;
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        measure(words[1], sizes[i]);
    columns_remove_home();
    return 0;
}
