/* SPDX-License-Identifier: MIT */
#include "columns.h"

#include <ftw.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "percentile.h"

static char home[200];

void columns_print_head(const char *title, const char *what, int programs)
{
    printf("\n%s\n%-38s", title, what);
    for (int i = 0; i < programs; i++) {
        char name[24];

        snprintf(name, sizeof name, i > 1 ? "sillet %d" : i == 1 ? "sillet" : "bare", i);
        printf(" %24s", name);
    }
    printf("\n%-38s", "");
    for (int i = 0; i < programs; i++)
        printf("   median    90 %%    99 %%");
    printf("\n");
}

void columns_print(const char *name, struct samples *samples, int programs)
{
    printf("  %-36s", name);
    for (int i = 0; i < programs; i++) {
        struct samples *of = &samples[i];
        const size_t count = (size_t)of->count;

        if (count == 0) {
            printf(" %24s", "-");
            continue;
        }
        percentile_sort(of->value, count);
        printf(" %8.2f%8.2f%8.2f", percentile_of(of->value, count, 50),
               percentile_of(of->value, count, 90), percentile_of(of->value, count, 99));
    }
    printf("\n");
    fflush(stdout);
}

void columns_print_exponent(double size_a, double cost_a, double size_b, double cost_b)
{
    if (size_a > 0 && cost_a > 0 && cost_b > 0)
        printf("%6.2f", log(cost_b / cost_a) / log(size_b / size_a));
    else
        printf("%6s", "-");
}

const char *columns_home(void)
{
    const char *base = getenv("TMPDIR");

    if (home[0])
        return home;
    snprintf(home, sizeof home, "%s/sillet-bench-XXXXXX", base ? base : "/tmp");
    if (!mkdtemp(home)) {
        perror(home);
        exit(2);
    }
    setenv("HOME", home, 1);
    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("TZ", "UTC", 1);
    unsetenv("XDG_DATA_HOME");
    unsetenv("XDG_STATE_HOME");
    unsetenv("XDG_CACHE_HOME");
    unsetenv("XDG_CONFIG_HOME");
    return home;
}

static int remove_entry(const char *path, const struct stat *facts, int kind, struct FTW *place)
{
    (void)facts;
    (void)kind;
    (void)place;
    return remove(path);
}

void columns_remove_home(void)
{
    nftw(home, remove_entry, 16, FTW_DEPTH | FTW_PHYS);
}
