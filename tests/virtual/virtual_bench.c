/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>

#include "virtual/virtual_table.h"

/*
 * The virtual bench: instruments whose physics the model does not assume, worked on by a hand that
 * misses, as the program says. It judges advice by what happens to the instrument.
 *
 *   virtual_bench [INSTRUMENTS [SEED]]    prints the table
 */

enum { SEED = 20260302 };

static void print_head(void)
{
    printf("%-26s %8s %7s %8s %7s %6s %8s %9s %7s %9s %7s %7s\n", "", "right at", "passes",
           "asks on", "fills %", "deep %", "right %", "slips %", "false %", "cut early", "again",
           "turned");
}

static void print(const char *name, const struct virtual_table *table)
{
    const struct virtual_way *sum = &table->sum;

    printf("%-26s %4d, %-2d %7.2f %8.2f %7.1f %6.2f %8.1f %9.0f %7.2f %9.0f %7.1f %7.2f\n", name,
           table->first_right[table->count / 2], table->first_right[table->count * 9 / 10],
           table->passes, table->asked_right, virtual_share(sum->filled, sum->strings),
           virtual_share(sum->deep, sum->strings), table->right,
           virtual_share(sum->slips_found, sum->slips), virtual_share(sum->questioned, sum->read),
           virtual_share(sum->cut_early, sum->returns),
           virtual_share(sum->asked_again, sum->looked_again), sum->turned / table->count);
}

int main(int argc, char **argv)
{
    const int count = argc > 1 ? atoi(argv[1]) : 200;
    struct seeded seed = {.state = argc > 2 ? strtoull(argv[2], NULL, 10) : SEED};

    if (count < 1 || count > VIRTUAL_INSTRUMENTS_MAX)
        return 2;
    print_head();
    for (int i = 0; i < virtual_hand_count; i++) {
        struct virtual_table table;

        virtual_table_make(&virtual_hands[i], count, &seed, &table);
        print(virtual_hands[i].name, &table);
    }
    return 0;
}
