/* SPDX-License-Identifier: MIT */
#include "virtual/virtual_table.h"

#include <stdlib.h>

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
    sum->looked_again += way->looked_again;
    sum->asked_again += way->asked_again;
    sum->claimed += way->claimed;
    sum->turned += way->turned;
    sum->returns += way->returns;
    sum->cut_early += way->cut_early;
}

void virtual_table_make(const struct virtual_hand *hand, int count, struct seeded *seed,
                        struct virtual_table *ret_table)
{
    const int most = hand->spoilt ? VIRTUAL_SPOILT_MAX : VIRTUAL_PASSES_MAX;

    *ret_table = (struct virtual_table){.count = count};
    for (int i = 0; i < count; i++) {
        struct virtual_instrument made;
        struct virtual_way way;

        virtual_instrument_draw(&made, &virtual_kinds[i % virtual_kind_count], seed);
        if (hand->rodless || hand->dead)
            made.stuck = true;
        else if (hand->spoilt)
            virtual_instrument_spoil(&made, seed);
        virtual_work(&made, hand, most, seed, &way);
        ret_table->first_right[i] = way.first_right > 0 ? way.first_right : most + 1;
        ret_table->passes += (double)way.passes / count / (1 + hand->seasons);
        ret_table->asked_right += (double)way.asked_right / count / (1 + hand->seasons);
        ret_table->right += 100.0 * way.right / count;
        add(&ret_table->sum, &way);
    }
    qsort(ret_table->first_right, (size_t)count, sizeof ret_table->first_right[0], by_number);
}

double virtual_share(int part, int whole)
{
    return whole > 0 ? 100.0 * part / whole : 0;
}
