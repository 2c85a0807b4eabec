/* SPDX-License-Identifier: MIT */
#include "model/uncertainty.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "model/reset.h"

double uncertainty_of_step(double step)
{
    return step / sqrt(12);
}

/* Counts down to the reading wanted; NULL until it is met. */
struct search {
    int left;
    double *found, step;
};

static void offer(struct search *search, bool given, double *value, double step)
{
    if (!given || search->found)
        return;
    if (search->left-- == 0) {
        search->found = value;
        search->step = step;
    }
}

static void walk_readings(struct setup *setup, struct search *search)
{
    const double feeler = setup->feeler_step_mm, rule = setup->rule_step_mm;

    for (int i = 0; i < setup->relief_count; i++)
        offer(search, true, &setup->relief[i].gap_mm, feeler);
    for (int n = 1; n <= setup->board.frets; n++)
        offer(search, setup->has_spot[n], &setup->spot_mm[n], feeler);
    offer(search, setup->fall_away_mm.given, &setup->fall_away_mm.value, feeler);
    for (int s = 1; s <= setup->board.strings; s++) {
        offer(search, setup->nut_gap_mm[s].given, &setup->nut_gap_mm[s].value, feeler);
        offer(search, setup->action_mm[s].given, &setup->action_mm[s].value, rule);
    }
    offer(search, setup->exposure_bass_mm.given, &setup->exposure_bass_mm.value, rule);
    offer(search, setup->exposure_treble_mm.given, &setup->exposure_treble_mm.value, rule);
}

int uncertainty_reading_count(const struct setup *setup)
{
    enum { MORE_THAN_ANY = 1 << 20 };
    struct search search = {.left = MORE_THAN_ANY};
    struct setup copy = *setup;

    if (!setup->has_board)
        return 0;
    walk_readings(&copy, &search);
    return MORE_THAN_ANY - search.left;
}

double *uncertainty_reading(struct setup *setup, int i, double *ret_step)
{
    struct search search = {.left = i};

    walk_readings(setup, &search);
    *ret_step = search.step;
    return search.found;
}

static void solve_held(const struct setup *setup, const struct move_choice *choice,
                       struct figures *figures)
{
    moves_solve(setup, choice, figures, NULL, NULL);
    reset_solve(setup, figures);
}

/* The set-up figures: everything that moves_solve and reset_solve compute. */
static bool is_setup_figure(int id)
{
    return id <= FIGURE_SADDLE_CHANGE || (id >= FIGURE_SADDLE_TURNS && id <= FIGURE_TONGUE_WEDGE);
}

/* Adds the square of one reading's part to the sum kept in u. */
static void add_part(struct figure *figure, const struct figure *low, const struct figure *high,
                     double share)
{
    if (figure->known == KNOWN_ABSENT)
        return;
    /* A reading that takes the figure away within its own step leaves it open. */
    if (low->known == KNOWN_ABSENT || high->known == KNOWN_ABSENT) {
        figure->u = (double)INFINITY;
        return;
    }
    const double part = (high->value - low->value) * share;
    figure->u += part * part;
}

void uncertainty_solve(const struct setup *setup, const struct move_choice *choice,
                       struct figures *figures)
{
    /* A step well inside the reading's own, and far above rounding. */
    const double share = 1.0 / 64;
    struct setup moved = *setup;
    struct figures low, high;
    const int count = uncertainty_reading_count(setup);

    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (is_setup_figure(id))
            for (int s = 0; s <= STRINGS_MAX; s++)
                figures->at[id][s].u = 0;
    for (int i = 0; i < count; i++) {
        double step;
        double *reading = uncertainty_reading(&moved, i, &step);
        const double middle = *reading, delta = share * step;

        if (!(delta > 0) || !isfinite(delta))
            continue;
        *reading = middle - delta;
        solve_held(&moved, choice, &low);
        *reading = middle + delta;
        solve_held(&moved, choice, &high);
        *reading = middle;
        for (int id = 0; id < FIGURE_COUNT_; id++)
            if (is_setup_figure(id))
                for (int s = 0; s <= setup->board.strings; s++)
                    add_part(&figures->at[id][s], &low.at[id][s], &high.at[id][s],
                             uncertainty_of_step(step) / (2 * delta));
    }
    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (is_setup_figure(id))
            for (int s = 0; s <= setup->board.strings; s++)
                figures->at[id][s].u = 2 * sqrt(figures->at[id][s].u);
}
