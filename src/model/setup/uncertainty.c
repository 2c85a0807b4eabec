/* SPDX-License-Identifier: MIT */
#include "model/setup/uncertainty.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "model/setup/reset.h"

double uncertainty_of_step(double step)
{
    return step / sqrt(12);
}

struct found {
    double *reading, step;
};

/* Counts down to the reading wanted; its `reading` is NULL until it is met. */
struct search {
    int left;
    struct found found;
};

static void offer(struct search *search, bool given, double *value, double step)
{
    if (!given || search->found.reading)
        return;
    if (search->left-- == 0)
        search->found = (struct found){.reading = value, .step = step};
}

/* Strings are read over these crowns alone, so no other spot moves a set-up figure. */
static bool spot_bears(const struct board *board, int fret)
{
    for (int s = 1; s <= board->strings; s++)
        if (fret == board_gap_fret(board, s) || fret == board_hold_fret(board, s))
            return true;
    return fret == board->action_fret;
}

static void walk_readings(struct setup *setup, struct search *search)
{
    const double relief_step = setup_step_mm(setup, FIELD_RELIEF_AT);
    const double spot_step = setup_step_mm(setup, FIELD_SPOT);
    struct maybe *read;
    enum field_id field;
    int string;

    for (int i = 0; i < setup->relief_count; i++)
        offer(search, true, &setup->relief[i].gap_mm, relief_step);
    for (int n = 1; n <= setup->board.frets; n++)
        offer(search, setup->spot_mm[n].given && spot_bears(&setup->board, n),
              &setup->spot_mm[n].value, spot_step);
    for (int i = 0; (read = setup_reading(setup, i, &field, &string)); i++)
        offer(search, read->given, &read->value, setup_step_mm(setup, field));
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
    *ret_step = search.found.step;
    return search.found.reading;
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

/* A step well inside the reading's own, and far above rounding. */
#define SHARE_OF_STEP (1.0 / 64)

static void solve_moved(const struct setup *moved, const struct move_choice *choice,
                        struct figures *figures)
{
    moves_solve(moved, choice, figures, NULL, NULL);
    reset_solve(moved, figures);
}

static void add_reading(struct figures *figures, const struct figures *low,
                        const struct figures *high, int strings, double share)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (figure_is_set_up((enum figure_id)id))
            for (int s = 0; s <= strings; s++)
                add_part(&figures->at[id][s], &low->at[id][s], &high->at[id][s], share);
}

/* One reading moved down and up, into `low` and `high`. */
static void try_reading(struct setup *moved, const struct move_choice *choice, int i,
                        struct figures *low, struct figures *high, struct figures *figures)
{
    double step;
    double *reading = uncertainty_reading(moved, i, &step);
    const double middle = *reading, delta = SHARE_OF_STEP * step;

    if (!(delta > 0) || !isfinite(delta))
        return;
    *reading = middle - delta;
    solve_moved(moved, choice, low);
    *reading = middle + delta;
    solve_moved(moved, choice, high);
    *reading = middle;
    add_reading(figures, low, high, moved->board.strings, uncertainty_of_step(step) / (2 * delta));
}

void uncertainty_solve(const struct setup *setup, const struct move_choice *choice,
                       struct figures *figures)
{
    struct setup moved = *setup;
    const int count = uncertainty_reading_count(setup);

    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (figure_is_set_up((enum figure_id)id))
            for (int s = 0; s <= STRINGS_MAX; s++)
                figures->at[id][s].u = 0;
    struct figures low, high;
    for (int i = 0; i < count; i++)
        try_reading(&moved, choice, i, &low, &high, figures);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (figure_is_set_up((enum figure_id)id))
            for (int s = 0; s <= setup->board.strings; s++)
                figures->at[id][s].u = 2 * sqrt(figures->at[id][s].u);
}
