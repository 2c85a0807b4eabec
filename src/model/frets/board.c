/* SPDX-License-Identifier: MIT */
#include "model/frets/board.h"

#include <math.h>

double board_station_mm(double scale_mm, int fret)
{
    return scale_mm * (1 - exp2(-fret / 12.0));
}

/* Between the outer two by course; lane 0 is their mean. */
static double lane_scale_mm(const struct board_plan *plan, int lane)
{
    const double treble = plan->scale_treble_mm, bass = plan->scale_bass_mm;
    const int courses = plan->courses > 0 ? plan->courses : plan->strings;

    if (lane == LANE_MIDDLE)
        return (treble + bass) / 2;
    if (courses == 1)
        return treble;
    const int step = (lane - 1) / (plan->strings / courses);
    return treble + (bass - treble) * step / (courses - 1);
}

static void place_frets(struct board *board, const struct board_plan *plan)
{
    double share[FRETS_MAX + 1];

    for (int n = 0; n <= FRETS_MAX; n++)
        share[n] = board_station_mm(1, n);
    for (int lane = 0; lane <= board->strings; lane++) {
        const double scale_mm = lane_scale_mm(plan, lane);
        const int start = lane == LANE_MIDDLE ? 0 : plan->from_fret[lane];
        const double start_mm = scale_mm * share[start];

        board->start_fret[lane] = start;
        board->start_mm[lane] = start_mm;
        board->scale_mm[lane] = scale_mm - start_mm;
        board->contact_mm[lane] = board->scale_mm[lane] + (lane ? plan->setback_mm[lane] : 0);
        for (int n = 0; n <= FRETS_MAX; n++)
            board->station_mm[lane][n] = scale_mm * share[n] - start_mm;
    }
    board->contact_mm[LANE_MIDDLE] += (plan->setback_mm[1] + plan->setback_mm[board->strings]) / 2;
}

/* The neck's bend in the body's frame for unit curvature: w(x) = (x_h - x)^2 / 2 before x_h. */
static double unit_bend(double heel_mm, double x_mm)
{
    const double reach = heel_mm - x_mm;

    return reach > 0 ? reach * reach / 2 : 0;
}

static void place_ride(struct board *board, int lane)
{
    const double *x = board->station_mm[lane];
    const double xb = x[board->end_high];

    board->saddle_ride[lane] =
        unit_bend(x[board->heel_fret], xb) - board->tilt[lane] * (board->contact_mm[lane] - xb);
}

/* The same in the chord's frame, for every fret of a lane. */
static void bend_lane(struct board *board, int lane)
{
    const double *x = board->station_mm[lane];
    const double heel = x[board->heel_fret];
    const double xa = x[board->end_low], xb = x[board->end_high];
    const double wa = unit_bend(heel, xa), wb = unit_bend(heel, xb);
    const double last = x[board->frets];

    for (int n = 0; n <= board->frets; n++) {
        board->bend[lane][n] = unit_bend(heel, x[n]) - (wa + (wb - wa) * (x[n] - xa) / (xb - xa));
        board->ramp[lane][n] = n > board->end_high ? (x[n] - xb) / (last - xb) : 0;
    }
    board->tilt[lane] = (wa - wb) / (xb - xa);
    place_ride(board, lane);
}

static int check_join(const struct board_plan *plan, struct findings *findings)
{
    if (plan->join_fret < 0)
        return -1;
    if (plan->join_fret > plan->frets) {
        findings_add(findings, FINDING_JOIN_BEYOND_FRETS, plan->join_fret);
        return -1;
    }
    return plan->join_fret;
}

static int check_action_fret(const struct board_plan *plan, struct findings *findings)
{
    if (plan->unfretted)
        return -1;
    /* At fret 1 the action would be the nut gap, and the string's line stay unknown. */
    if (plan->action_fret < 2) {
        findings_add(findings, FINDING_ACTION_FRET_ZERO, 0);
        return -1;
    }
    if (plan->action_fret > plan->frets) {
        findings_add(findings, FINDING_ACTION_FRET_BEYOND, plan->action_fret);
        return -1;
    }
    return plan->action_fret;
}

/* The frets that the neck's curve hangs on; false, with the reason found, when it cannot. */
static bool check_curve(struct board *board, const struct board_plan *plan,
                        struct findings *findings)
{
    const int join = board->join_fret;

    board->end_low = plan->relief_end_low;
    board->end_high = plan->relief_end_high >= 0 ? plan->relief_end_high : join;
    if (plan->heel_fret >= 0)
        board->heel_fret = plan->heel_fret;
    else
        board->heel_fret = join - (plan->pocket ? 1 : 3);

    if (join < 0 && (plan->relief_end_high < 0 || plan->heel_fret < 0)) {
        if (plan->join_fret < 0)
            findings_add(findings, FINDING_JOIN_ABSENT, 0);
        return false;
    }
    if (board->end_low < 0 || board->end_low >= board->end_high || board->end_high > plan->frets) {
        findings_add(findings, FINDING_ENDS_CROSSED,
                     board->end_high > plan->frets ? board->end_high : board->end_low);
        return false;
    }
    if (board->heel_fret < 0 || board->heel_fret > plan->frets) {
        findings_add(findings, FINDING_HEEL_OUTSIDE, board->heel_fret);
        return false;
    }
    return true;
}

static bool check_relief(struct board *board, const struct board_plan *plan,
                         struct findings *findings)
{
    board->relief_fret =
        plan->relief_fret >= 0 ? plan->relief_fret : (board->end_low + board->end_high) / 2;
    if (board->relief_fret <= board->end_low || board->relief_fret >= board->end_high) {
        findings_add(findings, FINDING_RELIEF_FRET_OUTSIDE, board->relief_fret);
        return false;
    }
    if (!(fabs(board->bend[LANE_MIDDLE][board->relief_fret]) > 0)) {
        findings_add(findings, FINDING_RELIEF_NO_LEVER, 0);
        return false;
    }
    return true;
}

/* A saddle contact must lie beyond the last fret, or a fretted string has no length. */
static void check_contacts(const struct board *board, struct findings *findings)
{
    for (int string = 1; string <= board->strings; string++)
        if (!(board->contact_mm[string] > board->station_mm[string][board->frets]))
            findings_add(findings, FINDING_CONTACT_SHORT, string);
}

enum status board_init(struct board *ret_board, const struct board_plan *plan,
                       struct findings *findings)
{
    struct board board = {.strings = plan->strings, .frets = plan->frets};

    if (!(plan->scale_treble_mm > 0 && isfinite(plan->scale_treble_mm)) ||
        !(plan->scale_bass_mm > 0 && isfinite(plan->scale_bass_mm)) || plan->strings < 1 ||
        plan->strings > STRINGS_MAX || plan->frets < 0 || plan->frets > FRETS_MAX)
        return STATUS_DOMAIN;
    board.join_fret = check_join(plan, findings);
    board.action_fret = check_action_fret(plan, findings);
    place_frets(&board, plan);
    check_contacts(&board, findings);
    board.has_curve = !plan->unfretted && check_curve(&board, plan, findings);
    if (board.has_curve) {
        for (int lane = 0; lane <= board.strings; lane++)
            bend_lane(&board, lane);
        board.has_relief = check_relief(&board, plan, findings);
    }
    *ret_board = board;
    return STATUS_OK;
}

double board_scale_mm(const struct board *board, int lane)
{
    return board->scale_mm[lane] + board->start_mm[lane];
}

int board_gap_fret(const struct board *board, int lane)
{
    return board->start_fret[lane] + 1;
}

int board_hold_fret(const struct board *board, int lane)
{
    return board->start_fret[lane] + 3;
}

void board_drop_setbacks(struct board *board)
{
    for (int lane = 0; lane <= board->strings; lane++) {
        board->contact_mm[lane] = board->scale_mm[lane];
        if (board->has_curve)
            place_ride(board, lane);
    }
}
