/* SPDX-License-Identifier: MIT */
#include "model/setup/reset.h"

#include <math.h>
#include <stddef.h>

static struct maybe exposure_after(struct maybe exposure, const struct figures *figures, int string)
{
    const struct maybe change = figures_get(figures, FIGURE_SADDLE_CHANGE, string);

    if (!exposure.given || !change.given)
        return maybe_absent();
    return maybe_given(exposure.value + change.value);
}

/* Saddle contact to body join, and tongue beyond the join: outer two strings averaged. */
static double reach_to_join(const struct board *board)
{
    const int n = board->strings, join = board->join_fret;

    return (board->contact_mm[1] - board->station_mm[1][join] + board->contact_mm[n] -
            board->station_mm[n][join]) /
           2;
}

static double join_station(const struct board *board)
{
    const int n = board->strings, join = board->join_fret;

    return (board->start_mm[1] + board->station_mm[1][join] + board->start_mm[n] +
            board->station_mm[n][join]) /
           2;
}

static void set_angle(const struct setup *setup, struct figures *figures, double mean_after)
{
    const struct board *board = &setup->board;
    const double reach = reach_to_join(board);

    if (!(reach > 0))
        return;
    const double theta = (setup->exposure_new_mm - mean_after) / reach;
    figures_set(figures, FIGURE_ANGLE, 0, theta, KNOWN_READ);
    if (setup->heel_depth_mm.given)
        figures_set(figures, FIGURE_HEEL_CUT, 0, theta * setup->heel_depth_mm.value, KNOWN_READ);
    if (setup->pocket_length_mm.given)
        figures_set(figures, FIGURE_POCKET_SHIM, 0, theta * setup->pocket_length_mm.value,
                    KNOWN_READ);
    if (setup->board_end_mm.given)
        figures_set(figures, FIGURE_TONGUE_WEDGE, 0,
                    theta * (setup->board_end_mm.value - join_station(board)), KNOWN_READ);
}

void reset_solve(const struct setup *setup, struct figures *figures)
{
    for (int id = 0; id < FIGURE_COUNT_; id++)
        if (figure_info((enum figure_id)id)->section == FIGURE_SECTION_RESET)
            figures->at[id][0].known = KNOWN_ABSENT;
    if (!setup->has_board)
        return;
    const struct maybe bass =
        exposure_after(setup->exposure_bass_mm, figures, setup->board.strings);
    const struct maybe treble = exposure_after(setup->exposure_treble_mm, figures, 1);
    if (bass.given)
        figures_set(figures, FIGURE_EXPOSURE_BASS_AFTER, 0, bass.value, KNOWN_READ);
    if (treble.given)
        figures_set(figures, FIGURE_EXPOSURE_TREBLE_AFTER, 0, treble.value, KNOWN_READ);
    if (bass.given && treble.given && setup->board.join_fret >= 0)
        set_angle(setup, figures, (bass.value + treble.value) / 2);
}

const char *reset_verdict_name(enum reset_verdict verdict)
{
    switch (verdict) {
    case RESET_SADDLE:
        return "saddle";
    case RESET_NECK:
        return "reset";
    case RESET_UNKNOWN:
        break;
    }
    return NULL;
}
