/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_layout.h"

#include <math.h>

#include "model/derive/string_places.h"

bool survey_layout_has_dot(int fret)
{
    static const int dots[] = {3, 5, 7, 9, 12, 15, 17, 19, 21, 24};

    for (size_t i = 0; i < sizeof dots / sizeof dots[0]; i++)
        if (dots[i] == fret)
            return true;
    return false;
}

static bool list_frets(const struct derived *derived, struct survey_layout *layout)
{
    const struct board *board = &derived->setup.board;

    if (board->frets < 1)
        return true;
    for (int s = 1; s <= board->strings; s++) {
        double x_mm[FRETS_MAX + 1];

        for (int n = 0; n <= board->frets; n++)
            x_mm[n] = board->start_mm[s] + board->station_mm[s][n];
        if (layout_list_frets(board->frets, x_mm, layout->string[s].fret) != STATUS_OK)
            return false;
    }
    return layout_list_frets(board->frets, board->station_mm[LANE_MIDDLE], layout->middle) ==
           STATUS_OK;
}

static void spread_strings(const struct record *record, const struct derived *derived,
                           struct survey_layout *layout)
{
    double nut_mm[STRINGS_MAX + 1], saddle_mm[STRINGS_MAX + 1];
    const bool has_nut = string_places_nut(record, derived->string, &derived->setup.outfit, nut_mm);
    const bool has_saddle =
        string_places_saddle(record, derived->string, &derived->setup.outfit, saddle_mm);

    for (int s = 1; s <= layout->strings; s++) {
        if (has_nut)
            layout->string[s].nut_line_mm = maybe_given(nut_mm[s]);
        if (has_nut && outfit_has_slot(&derived->setup.outfit, s))
            layout->string[s].nut_centre_mm = maybe_given(nut_mm[s]);
        if (has_saddle)
            layout->string[s].saddle_centre_mm = maybe_given(saddle_mm[s]);
    }
}

/* A station that a figure moves by; absent where the figure is. */
static struct maybe station(const struct figures *figures, enum figure_id id, int string,
                            double from_mm)
{
    const struct maybe by = figures_get(figures, id, string);

    return by.given ? maybe_given(from_mm + by.value) : by;
}

static void place_ends(const struct derived *derived, int string, struct string_layout *layout)
{
    const struct figures *figures = &derived->figures;
    const struct board *board = &derived->setup.board;
    const double scale_mm = board_scale_mm(board, string), start_mm = board->start_mm[string];
    const double contact_mm = start_mm + board->contact_mm[string];

    layout->start_mm = start_mm;
    layout->contact_mm = contact_mm;
    layout->contact_predicted_mm = station(figures, FIGURE_SETBACK_PREDICTED, string, scale_mm);
    layout->contact_best_mm = station(figures, FIGURE_SETBACK_BEST, string, scale_mm);
    layout->nut_front_best_mm = station(figures, FIGURE_NUT_ADVANCE_BEST, string, start_mm);
    layout->contact_read_mm = station(figures, FIGURE_SETBACK_CHANGE, string, contact_mm);
    if (layout->contact_read_mm.given)
        layout->contact_read_u_mm = maybe_given(figures->at[FIGURE_SETBACK_CHANGE][string].u);
    layout->contact_fit_mm = station(figures, FIGURE_SETBACK_FIT, string, contact_mm);
    layout->nut_front_fit_mm = station(figures, FIGURE_NUT_ADVANCE_FIT, string, start_mm);
}

void survey_layout(const struct record *record, const struct derived *derived,
                   struct survey_layout *ret_layout)
{
    const struct board *board = &derived->setup.board;

    *ret_layout = (struct survey_layout){.strings = board->strings, .frets = board->frets};
    if (!derived->setup.has_board || !list_frets(derived, ret_layout))
        return;
    ret_layout->known = true;
    ret_layout->multi_scale =
        fabs(board_scale_mm(board, 1) - board_scale_mm(board, board->strings)) > 1e-9;
    spread_strings(record, derived, ret_layout);
    for (int s = 1; s <= board->strings; s++)
        place_ends(derived, s, &ret_layout->string[s]);
}
