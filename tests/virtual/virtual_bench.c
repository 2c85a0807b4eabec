/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "virtual/tech.h"

/*
 * The virtual bench: instruments whose physics the model does not assume, worked on by a hand that
 * misses, as the program says. It judges advice by what happens to the instrument.
 *
 *   virtual_bench [INSTRUMENTS [SEED]]    prints the table
 */

enum { INSTRUMENTS_MAX = 2000, PASSES_AT_MOST = 6, SEED = 20260302 };

struct table {
    int count, first_right[INSTRUMENTS_MAX];
    double passes, asked_right, right;
    struct virtual_way sum;
};

static int by_number(const void *a, const void *b)
{
    return *(const int *)a - *(const int *)b;
}

static void add(struct virtual_way *sum, const struct virtual_way *way)
{
    sum->strings += way->strings;
    sum->filled += way->filled;
    sum->deep += way->deep;
    sum->slips += way->slips;
    sum->slips_found += way->slips_found;
    sum->read += way->read;
    sum->questioned += way->questioned;
    sum->returns += way->returns;
    sum->cut_early += way->cut_early;
}

static void run(const struct virtual_hand *hand, int count, struct seeded *seed,
                struct table *ret_table)
{
    *ret_table = (struct table){.count = count};
    for (int i = 0; i < count; i++) {
        struct virtual_instrument made;
        struct virtual_way way;

        virtual_instrument_draw(&made, &virtual_kinds[i % virtual_kind_count], seed);
        virtual_work(&made, hand, PASSES_AT_MOST, seed, &way);
        ret_table->first_right[i] = way.first_right > 0 ? way.first_right : PASSES_AT_MOST + 1;
        ret_table->passes += (double)way.passes / count / (1 + hand->seasons);
        ret_table->asked_right += (double)way.asked_right / count / (1 + hand->seasons);
        ret_table->right += 100.0 * way.right / count;
        add(&ret_table->sum, &way);
    }
    qsort(ret_table->first_right, (size_t)count, sizeof ret_table->first_right[0], by_number);
}

static double share(int part, int whole)
{
    return whole > 0 ? 100.0 * part / whole : 0;
}

static void print_head(void)
{
    printf("%-26s %8s %7s %8s %7s %6s %8s %9s %7s %9s\n", "", "right at", "passes", "asks on",
           "fills %", "deep %", "right %", "slips %", "false %", "cut early");
}

static void print(const char *name, const struct table *table)
{
    const struct virtual_way *sum = &table->sum;

    printf("%-26s %4d, %-2d %7.2f %8.2f %7.1f %6.2f %8.1f %9.0f %7.2f %9.0f\n", name,
           table->first_right[table->count / 2], table->first_right[table->count * 9 / 10],
           table->passes, table->asked_right, share(sum->filled, sum->strings),
           share(sum->deep, sum->strings), table->right, share(sum->slips_found, sum->slips),
           share(sum->questioned, sum->read), share(sum->cut_early, sum->returns));
}

int main(int argc, char **argv)
{
    const int count = argc > 1 ? atoi(argv[1]) : 200;
    struct seeded seed = {.state = argc > 2 ? strtoull(argv[2], NULL, 10) : SEED};

    if (count < 1 || count > INSTRUMENTS_MAX)
        return 2;
    print_head();
    for (int i = 0; i < virtual_hand_count; i++) {
        struct table table;

        run(&virtual_hands[i], count, &seed, &table);
        print(virtual_hands[i].name, &table);
    }
    return 0;
}
