/* SPDX-License-Identifier: MIT */
#include "model/setup/rod_prior.h"

#include <math.h>

/* A turn that does more than this was logged wrong. */
#define MOST_PER_TURN_MM 10.0

bool rod_neck_is_known(const struct rod_neck *neck)
{
    return neck->per_turn_mm < 0 && neck->per_turn_mm >= -MOST_PER_TURN_MM &&
           neck->per_turn_u_mm >= 0 && neck->per_turn_u_mm <= MOST_PER_TURN_MM;
}

void rod_necks_add(struct rod_necks *necks, const struct rod_neck *neck)
{
    int at = necks->count;

    if (!rod_neck_is_known(neck) || necks->count == ROD_NECKS_MAX)
        return;
    for (; at > 0 && necks->at[at - 1].per_turn_mm > neck->per_turn_mm; at--)
        necks->at[at] = necks->at[at - 1];
    necks->at[at] = *neck;
    necks->count++;
}

static double spread_about(const struct rod_necks *necks, double median_mm)
{
    double squares = 0;

    for (int i = 0; i < necks->count; i++) {
        const double off = necks->at[i].per_turn_mm - median_mm;

        squares += off * off;
    }
    return sqrt(squares / (necks->count - 1));
}

struct rod_prior rod_prior_of(const struct rod_necks *necks)
{
    if (necks->count < ROD_NECKS_LEAST)
        return (struct rod_prior){.necks = 0};
    const struct rod_neck *low = &necks->at[(necks->count - 1) / 2],
                          *high = &necks->at[necks->count / 2];
    const double median_mm = (low->per_turn_mm + high->per_turn_mm) / 2;
    const double u_mm =
        fmax(2 * spread_about(necks, median_mm), fmax(low->per_turn_u_mm, high->per_turn_u_mm));

    if (!(u_mm < -median_mm))
        return (struct rod_prior){.necks = 0};
    return (struct rod_prior){
        .necks = necks->count, .per_turn_mm = median_mm, .per_turn_u_mm = u_mm};
}
