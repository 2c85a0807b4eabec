/* SPDX-License-Identifier: MIT */
#include "model/setup/move_shape.h"

#include <math.h>
#include <string.h>

#include "model/setup/move_find.h"

static bool is_for_good(const struct setup *setup)
{
    return setup->bridge == BRIDGE_BLANK || setup->bridge == BRIDGE_UNKNOWN;
}

/* Whether some amount is larger than what the whole piece is known to. */
static bool is_beyond_doubt(const struct move_amount amount[STRINGS_MAX + 1], int strings)
{
    double most = 0, most_u = 0;

    for (int s = 1; s <= strings; s++)
        if (amount[s].known) {
            most = fmax(most, fabs(amount[s].value));
            most_u = fmax(most_u, amount[s].u);
        }
    return most > most_u;
}

/* A blank is one piece: what its strings ask for is made of it in one straight line, and off its
 * top. What was asked for is kept where that is more than nothing, but not known well enough. */
static struct saddle_work shape_blank(const struct setup *setup,
                                      struct move_amount amount[STRINGS_MAX + 1])
{
    double change_mm[STRINGS_MAX + 1] = {0}, u_mm[STRINGS_MAX + 1] = {0};

    for (int s = 1; s <= setup->board.strings; s++) {
        if (!amount[s].known && outfit_has_slot(&setup->outfit, s))
            return (struct saddle_work){.known = false};
        change_mm[s] = amount[s].value;
        u_mm[s] = amount[s].u;
    }
    const struct saddle_work work = saddle_work_find(&setup->outfit, change_mm, u_mm);
    for (int s = 1; s <= setup->board.strings; s++)
        if (outfit_has_slot(&setup->outfit, s))
            amount[s].value = saddle_work_at(&work, &setup->outfit, s);
    return work;
}

bool move_shape_saddle(const struct setup *setup, struct move *move,
                       struct move_amount amount[STRINGS_MAX + 1])
{
    struct move_amount shaped[STRINGS_MAX + 1];
    struct saddle_work work = {.known = false};

    memcpy(shaped, amount, sizeof shaped);
    if (setup->bridge == BRIDGE_BLANK)
        work = shape_blank(setup, shaped);
    if (is_for_good(setup) && !is_beyond_doubt(shaped, setup->board.strings))
        return false;
    memcpy(amount, shaped, sizeof shaped);
    move->saddle_work = work;
    return true;
}
