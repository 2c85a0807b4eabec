/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "big_profile.h"
#include "columns.h"
#include "timed.h"

/*
 * The programs' speed as the user sees it, on a pseudo-terminal: from the start to the first whole
 * screen, from a key to the last byte that it paints, what is sent for it, and how often a program
 * is woken that nothing is asked of. Side by side: one that does as little as can be done, and each
 * sillet that is named. Prints tables; no time is a failure.
 *
 *     bench_key BARE PROFILE SILLET...
 */
enum { STARTS = 40, ROUNDS = 60, IDLE_MS = 4000, SETTLING_MS = 1500 };

struct kind {
    const char *name;
    const char *before[2]; /* typed first, not measured; by turns, like the key */
    const char *key[2];
    const char *after; /* typed afterwards, not measured */
    bool bare;         /* the bare program knows it too */
    bool big;          /* only of interest in a large record */
};

#define DOWN    "\x1BOB"
#define LEFT    "\x1BOD"
#define BENCH   "\x1BOQ\x1BOH"
#define HISTORY "\x1B[19~"

static const struct kind kinds[] = {
    {"an arrow", {BENCH, DOWN}, {DOWN, DOWN}, "", true, false},
    {"a digit", {BENCH, ""}, {"2", "2"}, "\x7F", true, false},
    {"the next leaf", {BENCH, ""}, {"\t", "\t"}, "", false, false},
    {"Enter: kept on disk", {BENCH ".012", BENCH ".011"}, {"\r", "\r"}, "", true, false},
    {"undo: kept on disk", {"", ""}, {"u", "u"}, "", false, false},
    {"an arrow on History", {HISTORY, HISTORY}, {LEFT, LEFT}, "", false, true},
};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

struct programs {
    const char *path[COLUMNS_MAX];
    int count;
};

static struct timed start(const struct programs *programs, int i, const char *file)
{
    const char *const argv[] = {programs->path[i], file, NULL};

    return timed_start(argv, i == 0 ? "q quit" : "[Bench]");
}

static void copy(const char *from, const char *to)
{
    static char bytes[1 << 16];
    FILE *in = fopen(from, "r"), *out = fopen(to, "w");
    size_t length;

    if (!in || !out) {
        perror(in ? to : from);
        exit(2);
    }
    while ((length = fread(bytes, 1, sizeof bytes, in)) > 0)
        fwrite(bytes, 1, length, out);
    fclose(in);
    fclose(out);
}

/* What a program works on: the bare one has a folder, each sillet a profile of its own. */
static const char *file_for(int i, const char *profile)
{
    static char path[300];

    if (i == 0)
        return columns_home();
    snprintf(path, sizeof path, "%s/%d.ini", columns_home(), i);
    if (profile)
        copy(profile, path);
    return path;
}

static void measure_starts(const struct programs *programs, const char *profile)
{
    static struct samples samples[COLUMNS_MAX];

    memset(samples, 0, sizeof samples);
    for (int round = 0; round < STARTS; round++)
        for (int i = 0; i < programs->count; i++) {
            const char *file = file_for(i, round == 0 ? profile : NULL);
            struct timed timed = start(programs, i, file);

            samples[i].value[samples[i].count++] = timed.first_ms;
            timed_stop(&timed);
        }
    columns_print("start to the first screen", samples, programs->count);
}

struct measured {
    struct samples first[COLUMNS_MAX], last[COLUMNS_MAX], bytes[COLUMNS_MAX], writes[COLUMNS_MAX];
};

static void take(struct measured *measured, int i, const struct painted *painted)
{
    const int at = measured->last[i].count;

    measured->first[i].value[at] = painted->first_ms;
    measured->last[i].value[at] = painted->last_ms;
    measured->bytes[i].value[at] = painted->bytes;
    measured->writes[i].value[at] = painted->writes;
    measured->first[i].count = measured->last[i].count = at + 1;
    measured->bytes[i].count = measured->writes[i].count = at + 1;
}

static void measure_kind(struct timed *timed, const struct kind *kind, struct measured *measured,
                         int i)
{
    for (int round = 0; round < ROUNDS; round++) {
        const int turn = round % 2;

        if (kind->before[turn][0])
            timed_key(timed, kind->before[turn]);
        const struct painted painted = timed_key(timed, kind->key[turn]);
        take(measured, i, &painted);
        if (kind->after[0])
            timed_key(timed, kind->after);
    }
}

static void measure_keys(const struct programs *programs, const char *profile, bool big)
{
    static struct measured measured[KINDS];

    memset(measured, 0, sizeof measured);
    for (int i = 0; i < programs->count; i++) {
        struct timed timed = start(programs, i, file_for(i, profile));

        for (int k = 0; k < KINDS; k++)
            if ((i > 0 || kinds[k].bare) && (big || !kinds[k].big))
                measure_kind(&timed, &kinds[k], &measured[k], i);
        timed_stop(&timed);
    }
    for (int k = 0; k < KINDS; k++)
        if (big || !kinds[k].big)
            columns_print(kinds[k].name, measured[k].last, programs->count);
    columns_print("bytes sent for an arrow", measured[0].bytes, programs->count);
    columns_print("writes for an arrow", measured[0].writes, programs->count);
}

static void measure_idle(const struct programs *programs, const char *profile, const char *what,
                         const char *keys)
{
    static struct samples samples[COLUMNS_MAX];

    for (int i = 0; i < programs->count; i++) {
        struct timed timed = start(programs, i, file_for(i, profile));

        if (i > 0)
            timed_key(&timed, keys);
        (void)timed_wake_ups(&timed, SETTLING_MS);
        samples[i].value[0] = (double)timed_wake_ups(&timed, IDLE_MS) * 60000 / IDLE_MS;
        samples[i].count = 1;
        timed_stop(&timed);
    }
    columns_print(what, samples, programs->count);
}

int main(int count, char **words)
{
    struct programs programs = {.count = 0};
    char big[300];

    if (count < 4 || count > COLUMNS_MAX + 2) {
        fprintf(stderr, "usage: %s BARE PROFILE SILLET...\n", words[0]);
        return 2;
    }
    programs.path[programs.count++] = words[1];
    for (int i = 3; i < count; i++)
        programs.path[programs.count++] = words[i];
    snprintf(big, sizeof big, "%s/big", columns_home());
    big_profile_write(big, 40, 1);
    columns_print_head("A usual record", "ms to the last byte", programs.count);
    measure_starts(&programs, words[2]);
    measure_keys(&programs, words[2], false);
    measure_idle(&programs, words[2], "wake-ups a minute", BENCH);
    columns_print_head("17 300 lines: 40 visits, 12 strings, 24 frets", "ms to the last byte",
                       programs.count);
    measure_starts(&programs, big);
    measure_keys(&programs, big, true);
    measure_idle(&programs, big, "wake-ups a minute on History", HISTORY);
    columns_remove_home();
    return 0;
}
