/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <time.h>

#include "base/strbuf.h"
#include "build_record.h"
#include "model/derive/derive.h"
#include "model/setup/uncertainty.h"
#include "percentile.h"

/*
 * The time that a key takes: everything is derived again after each. A board of 12 strings and
 * 24 frets with every reading that it can have. A screen refreshed sixty times a second
 * leaves 16 ms.
 */

enum { STRINGS = 12, FRETS = 24, TIMES = 2000, LINES_SIZE = 64 * 1024 };

static void add_string(struct strbuf *lines, int s)
{
    strbuf_addf(lines, "string.%d note = %s\nstring.%d gauge = %d th\n", s, s % 2 ? "E4" : "B3", s,
                10 + 3 * s);
    if (s <= 3)
        strbuf_addf(lines, "string.%d build = plain\n", s);
    else
        strbuf_addf(lines,
                    "string.%d build = round-wound\nstring.%d core = %d th\n"
                    "string.%d wrap_material = phosphor-bronze\n",
                    s, s, 10 + s, s);
    strbuf_addf(lines, "string.%d setback = %d.5 mm\n", s, s % 4);
    strbuf_addf(lines, "visit.1.pass.1 nut_gap.%d = %d th\n", s, 20 + s);
    strbuf_addf(lines, "visit.1.pass.1 action.%d = %d.25/64 in\n", s, 5 + s / 3);
    for (int n = 1; n <= FRETS; n++)
        strbuf_addf(lines, "visit.1.pass.1 cents.%d.%d = %d\n", s, n, (7 * n + s) % 9 - 4);
    strbuf_addf(lines, "visit.1.pass.1 buzz.%d = 3 4 5\nvisit.1.pass.1 clean.%d = 0-2 6-24\n", s,
                s);
}

static void build_full(struct record *ret_record)
{
    static char memory[LINES_SIZE];
    struct strbuf lines = STRBUF(memory);

    strbuf_add(&lines, build_record_full);
    strbuf_addf(&lines,
                "board strings = %d\nboard frets = %d\nboard join_fret = 14\n"
                "board width_nut = 45 mm\nboard width_join = 55 mm\nboard thickness = 6 mm\n"
                "board crown_height = 1.1 mm\nboard modulus = 13000\n"
                "neck shaft_first = 14 mm\nneck shaft_heel = 16 mm\nneck wood = mahogany\n"
                "neck slot_width = 6.35 mm\nneck slot_depth = 11 mm\n"
                "neck spline_modulus = 12600\nneck recut_width = 6 mm\n"
                "neck recut_depth = 8 mm\nvisit.1 humidity = 41\nvisit.1 temperature = 21 C\n"
                "visit.1.pass.1 fall_away = 8 th\n",
                STRINGS, FRETS);
    for (int s = 1; s <= STRINGS; s++)
        add_string(&lines, s);
    for (int n = 2; n <= FRETS; n++)
        strbuf_addf(&lines, "visit.1.pass.1 spot.%d = %d th\n", n, n % 3);
    for (int n = 3; n <= 9; n += 2)
        strbuf_addf(&lines, "visit.1.pass.1 relief.%d = %d th\n", n, 8 + n % 4);
    build_record(ret_record, memory);
}

static double now_us(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

/* What is measured, on a record and the result of an earlier run. */
typedef void measured(const struct record *record, struct derived *derived);

static void whole(const struct record *record, struct derived *derived)
{
    derive_current(record, derived);
}

static void set_up_part(const struct record *record, struct derived *derived)
{
    setup_read(&derived->setup, place_of(record, 1, 1), &derived->findings);
    moves_solve(&derived->setup, NULL, &derived->figures, &derived->choice, &derived->lines);
    reset_solve(&derived->setup, &derived->figures);
    uncertainty_solve(&derived->setup, &derived->choice, &derived->figures);
}

static void uncertainty_part(const struct record *record, struct derived *derived)
{
    (void)record;
    uncertainty_solve(&derived->setup, &derived->choice, &derived->figures);
}

static void measure(const char *what, measured *run, const struct record *record,
                    struct derived *derived)
{
    static double took[TIMES];

    for (int i = 0; i < TIMES; i++) {
        const double from = now_us();

        run(record, derived);
        took[i] = now_us() - from;
    }
    percentile_sort(took, TIMES);
    printf("%-24s median %7.1f us, 90 %% %7.1f, 99 %% %7.1f, most %7.1f\n", what,
           percentile_of(took, TIMES, 50), percentile_of(took, TIMES, 90),
           percentile_of(took, TIMES, 99), took[TIMES - 1]);
}

int main(void)
{
    static struct derived derived;
    struct record record;

    build_full(&record);
    printf("%d strings, %d frets, %zu readings, %d times\n", STRINGS, FRETS, record.count, TIMES);
    measure("everything", whole, &record, &derived);
    measure("set-up with uncertainty", set_up_part, &record, &derived);
    measure("uncertainty alone", uncertainty_part, &record, &derived);
    record_done(&record);
    return 0;
}
