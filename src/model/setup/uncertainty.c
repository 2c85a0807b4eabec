/* SPDX-License-Identifier: MIT */
#include "model/setup/uncertainty.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/reset.h"

double uncertainty_of_step(double step)
{
    return step / sqrt(12);
}

/* Strings are read over these crowns alone, so no other spot moves a set-up figure. */
static bool spot_bears(const struct board *board, int fret)
{
    for (int s = 1; s <= board->strings; s++)
        if (fret == board_gap_fret(board, s) || fret == board_hold_fret(board, s))
            return true;
    return fret == board->action_fret;
}

int uncertainty_list(struct setup *setup, struct uncertain ret_list[UNCERTAIN_MAX])
{
    const double relief_step = setup_step_mm(setup, FIELD_RELIEF_AT);
    const double spot_step = setup_step_mm(setup, FIELD_SPOT);
    struct maybe *read;
    enum field_id field;
    int string, count = 0;

    if (!setup->has_board)
        return 0;
    for (int i = 0; i < setup->relief_count; i++)
        ret_list[count++] = (struct uncertain){&setup->relief[i].gap_mm, relief_step};
    for (int n = 1; n <= setup->board.frets; n++)
        if (setup->spot_mm[n].given && spot_bears(&setup->board, n))
            ret_list[count++] = (struct uncertain){&setup->spot_mm[n].value, spot_step};
    for (int i = 0; (read = setup_reading(setup, i, &field, &string)); i++)
        if (read->given)
            ret_list[count++] = (struct uncertain){&read->value, setup_step_mm(setup, field)};
    return count;
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
    for (const enum figure_id *id = figures_of_set_up(); *id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= strings; s++)
            add_part(&figures->at[*id][s], &low->at[*id][s], &high->at[*id][s], share);
}

/* One reading moved down and up, into `low` and `high`. */
static void try_reading(const struct uncertain *at, const struct setup *moved,
                        const struct move_choice *choice, struct figures *low, struct figures *high,
                        struct figures *figures)
{
    const double middle = *at->reading, delta = SHARE_OF_STEP * at->step;

    if (!(delta > 0) || !isfinite(delta))
        return;
    *at->reading = middle - delta;
    solve_moved(moved, choice, low);
    *at->reading = middle + delta;
    solve_moved(moved, choice, high);
    *at->reading = middle;
    add_reading(figures, low, high, moved->board.strings,
                uncertainty_of_step(at->step) / (2 * delta));
}

void uncertainty_solve(const struct setup *setup, const struct move_choice *choice,
                       struct figures *figures)
{
    struct setup moved = *setup;
    struct uncertain list[UNCERTAIN_MAX];
    const int count = uncertainty_list(&moved, list);

    for (const enum figure_id *id = figures_of_set_up(); *id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            figures->at[*id][s].u = 0;
    struct figures low, high;
    for (int i = 0; i < count; i++)
        try_reading(&list[i], &moved, choice, &low, &high, figures);
    for (const enum figure_id *id = figures_of_set_up(); *id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= setup->board.strings; s++)
            figures->at[*id][s].u = 2 * sqrt(figures->at[*id][s].u);
}
