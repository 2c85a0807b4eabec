/* SPDX-License-Identifier: MIT */
#include "model/setup/moves.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/straight_cut.h"
#include "model/setup/string_target.h"
#include "model/setup/setup_fill.h"

/* What one solution hands from step to step. */
struct solution {
    const struct setup *setup;
    const struct board *board;
    const struct move_choice *held;
    struct figures *figures;
    struct move_choice choice;
    struct string_lines lines;
    enum known known[STRINGS_MAX + 1]; /* of what hangs on both gap and action */
};

/* The state of one string as the moves go on, with the heights of its crowns. */
struct string_state {
    int string;
    double nut_mm, saddle_mm;
    double x1, xk, contact;
    double z1, zk;
};

static void clear_figures(struct figures *figures)
{
    for (const enum figure_id *id = figures_of_set_up(); *id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            figures->at[*id][s].known = KNOWN_ABSENT;
}

static double crown_mm(const struct solution *solution, const struct neck_curve *curve, int string,
                       int fret)
{
    return neck_curve_height_mm(curve, solution->board, string, fret);
}

double string_line_height_mm(const struct string_line *line, double contact_mm, double x_mm)
{
    return line->nut_mm + (line->saddle_mm - line->nut_mm) * x_mm / contact_mm;
}

static double line_mm(const struct string_state *state, double x)
{
    const struct string_line line = {.nut_mm = state->nut_mm, .saddle_mm = state->saddle_mm};

    return string_line_height_mm(&line, state->contact, x);
}

static double line_action(const struct string_state *state)
{
    return line_mm(state, state->xk) - state->zk;
}

static double line_gap(const struct string_state *state)
{
    return line_mm(state, state->x1) - state->z1;
}

static struct string_line as_line(double nut_mm, double saddle_mm)
{
    return (struct string_line){
        .known = isfinite(nut_mm) && isfinite(saddle_mm), .nut_mm = nut_mm, .saddle_mm = saddle_mm};
}

/* The slot height of a string that passes fret 1 at u1 and the action fret at uk. */
static double nut_through(const struct string_state *state, double u1, double uk)
{
    return u1 - (uk - u1) * state->x1 / (state->xk - state->x1);
}

/* The saddle height that puts the string through the given action. */
static double saddle_for_action(const struct string_state *state, double action_mm)
{
    return state->nut_mm + (state->zk + action_mm - state->nut_mm) * state->contact / state->xk;
}

static void solve_curve(struct solution *solution)
{
    struct string_lines *lines = &solution->lines;
    const struct board *board = solution->board;

    lines->has_now = neck_curve_fit(solution->setup, &lines->curve_now) == STATUS_OK;
    if (!lines->has_now)
        return;
    const double kappa = lines->curve_now.kappa_per_mm;
    const double relief = neck_curve_relief_mm(board, kappa);
    figures_set(solution->figures, FIGURE_RELIEF, 0, relief, KNOWN_READ);
    figures_set(solution->figures, FIGURE_CURVATURE, 0, kappa, KNOWN_READ);
    figures_set(solution->figures, FIGURE_TILT, 0, kappa * board->tilt[LANE_MIDDLE], KNOWN_READ);

    const double target = solution->setup->relief_target_mm.value;
    if (!solution->setup->relief_target_mm.given || !isfinite(target))
        return;
    lines->curve_after = lines->curve_now;
    solution->choice.rod =
        solution->held ? solution->held->rod
                       : setup_is_off(relief - target, solution->setup->relief_tolerance_mm);
    if (solution->choice.rod)
        lines->curve_after.kappa_per_mm = neck_curve_kappa_for(board, target);
    lines->has_after = isfinite(lines->curve_after.kappa_per_mm);
}

/* A string with a length to sound, and heights that are numbers: what a reading beyond all
 * measure leads to is absent, not wrong. */
static bool is_sound(const struct solution *solution, const struct string_state *state)
{
    const struct board *board = solution->board;

    return state->contact > board->station_mm[state->string][board->frets] &&
           isfinite(state->nut_mm) && isfinite(state->saddle_mm) && isfinite(line_gap(state)) &&
           isfinite(line_action(state));
}

/* Where the string lies now, from nut gap and action. */
static bool find_line(struct solution *solution, struct string_state *state, double gap_mm,
                      double action_mm)
{
    const struct neck_curve *curve = &solution->lines.curve_now;
    const double *x = solution->board->station_mm[state->string];
    const double uk = state->zk + action_mm;

    if (solution->setup->nut_method == NUT_OPEN) {
        const double u1 = state->z1 + gap_mm;

        state->nut_mm = nut_through(state, u1, uk);
        state->saddle_mm = state->nut_mm + (uk - u1) / (state->xk - state->x1) * state->contact;
    } else {
        if (solution->board->frets < board_hold_fret(solution->board, state->string))
            return false;
        const int hold = board_hold_fret(solution->board, state->string);
        const double q = state->x1 / x[hold];
        const double z3 = crown_mm(solution, curve, state->string, hold);

        state->nut_mm = (gap_mm + state->z1 - z3 * q) / (1 - q);
        state->saddle_mm = state->nut_mm + (uk - state->nut_mm) * state->contact / state->xk;
    }
    return is_sound(solution, state);
}

static struct string_state begin_string(const struct solution *solution, int string)
{
    const struct board *board = solution->board;
    const struct neck_curve *curve = &solution->lines.curve_now;

    return (struct string_state){
        .string = string,
        .x1 = board->station_mm[string][board_gap_fret(board, string)],
        .xk = board->station_mm[string][board->action_fret],
        .contact = board->contact_mm[string],
        .z1 = crown_mm(solution, curve, string, board_gap_fret(board, string)),
        .zk = crown_mm(solution, curve, string, board->action_fret),
    };
}

static void put(struct solution *solution, enum figure_id id, int string, double value)
{
    figures_set(solution->figures, id, string, value, solution->known[string]);
}

/* The rod turns the neck under the string: the slot rides on it, the saddle does not. */
static void move_rod(struct solution *solution, struct string_state *state)
{
    const struct neck_curve *now = &solution->lines.curve_now;
    const struct neck_curve *after = &solution->lines.curve_after;
    const int s = state->string;

    const int start = solution->board->start_fret[s];

    state->nut_mm += crown_mm(solution, after, s, start) - crown_mm(solution, now, s, start);
    state->saddle_mm -= (after->kappa_per_mm - now->kappa_per_mm) * solution->board->saddle_ride[s];
    state->z1 = crown_mm(solution, after, s, board_gap_fret(solution->board, s));
    state->zk = crown_mm(solution, after, s, solution->board->action_fret);
    put(solution, FIGURE_ACTION_AFTER_ROD, s, line_action(state));
    put(solution, FIGURE_GAP_AFTER_ROD, s, line_gap(state));
}

/* The gap at fret 1 once the action is right, with the slot as it is. */
static double gap_at_target(const struct string_state *state, double action_mm)
{
    const double uk = state->zk + action_mm;

    return state->nut_mm + (uk - state->nut_mm) * state->x1 / state->xk - state->z1;
}

/* The slot counts by the gap that it gives once the action is right. */
static void move_slot(struct solution *solution, struct string_state *state, double action_mm,
                      double target_gap_mm)
{
    const int s = state->string;
    const double uk = state->zk + action_mm;
    const double gap = gap_at_target(state, action_mm);
    double change = 0;

    solution->choice.slot[s] =
        solution->held ? solution->held->slot[s]
                       : setup_is_off(gap - target_gap_mm, solution->setup->gap_tolerance_mm);
    if (solution->choice.slot[s]) {
        const double u1 = state->z1 + target_gap_mm;

        change = nut_through(state, u1, uk) - state->nut_mm;
    }
    state->nut_mm += change;
    put(solution, FIGURE_SLOT_CHANGE, s, change);
    put(solution, FIGURE_ACTION_AFTER_NUT, s, line_action(state));
}

static void move_saddle(struct solution *solution, struct string_state *state, double action_mm)
{
    const int s = state->string;
    const double aim = saddle_for_action(state, action_mm);
    double change = 0;

    solution->choice.saddle[s] =
        solution->held
            ? solution->held->saddle[s]
            : setup_is_off(line_action(state) - action_mm, solution->setup->action_tolerance_mm);
    if (solution->choice.saddle[s])
        change = aim - state->saddle_mm;
    state->saddle_mm += change;
    put(solution, FIGURE_SADDLE_CHANGE, s, change);
}

static void solve_string(struct solution *solution, int string, double gap_mm, double action_mm)
{
    const struct setup *setup = solution->setup;
    struct string_state state = begin_string(solution, string);
    const struct maybe action_target = string_target_action(setup, string);
    const struct maybe gap_target = string_target_gap(setup, string);

    if (!find_line(solution, &state, gap_mm, action_mm))
        return;
    if (setup->nut_method == NUT_HELD_3)
        put(solution, FIGURE_NUT_GAP, string, line_gap(&state));
    put(solution, FIGURE_NUT_HEIGHT, string, state.nut_mm);
    put(solution, FIGURE_SADDLE_HEIGHT, string, state.saddle_mm);
    solution->lines.now[string] = as_line(state.nut_mm, state.saddle_mm);
    if (!solution->lines.has_after)
        return;
    move_rod(solution, &state);
    if (!is_sound(solution, &state) || !action_target.given)
        return;
    put(solution, FIGURE_GAP_AT_TARGET, string, gap_at_target(&state, action_target.value));
    if (!gap_target.given)
        return;
    move_slot(solution, &state, action_target.value, gap_target.value);
    move_saddle(solution, &state, action_target.value);
    solution->lines.after[string] = as_line(state.nut_mm, state.saddle_mm);
}

/* How what hangs on two readings is known. */
static enum known of_both(enum known gap, enum known action)
{
    if (gap == KNOWN_ABSENT || action == KNOWN_ABSENT)
        return KNOWN_ABSENT;
    return gap == KNOWN_INTERPOLATED ? gap : action;
}

static void solve_strings(struct solution *solution)
{
    const struct setup *setup = solution->setup;
    const int strings = solution->board->strings;
    double gap[STRINGS_MAX + 1], action[STRINGS_MAX + 1];
    enum known gap_known[STRINGS_MAX + 1], action_known[STRINGS_MAX + 1];
    const bool has_gap = setup_fill_gaps(setup, gap, gap_known);
    const bool has_action = setup_fill_actions(setup, action, action_known);
    const bool has_line =
        has_gap && has_action && solution->lines.has_now && solution->board->action_fret >= 0;

    for (int s = 1; has_line && s <= strings; s++)
        solution->known[s] = of_both(gap_known[s], action_known[s]);
    for (int s = 1; s <= strings; s++) {
        if (has_gap && gap_known[s] != KNOWN_ABSENT && setup->nut_method == NUT_OPEN)
            figures_set(solution->figures, FIGURE_NUT_GAP, s, gap[s], gap_known[s]);
        if (has_action && action_known[s] != KNOWN_ABSENT)
            figures_set(solution->figures, FIGURE_ACTION, s, action[s], action_known[s]);
        if (has_line && solution->known[s] != KNOWN_ABSENT)
            solve_string(solution, s, gap[s], action[s]);
    }
}

static void cut_blank(struct solution *solution)
{
    const struct outfit *outfit = &solution->setup->outfit;
    const int strings = solution->board->strings;
    double change[STRINGS_MAX + 1] = {0};

    for (int s = 1; s <= strings; s++) {
        const struct maybe one = figures_get(solution->figures, FIGURE_SADDLE_CHANGE, s);

        if (!one.given && outfit_has_slot(outfit, s))
            return;
        change[s] = one.value;
    }
    const struct straight_cut cut = straight_cut_find(outfit, change);
    for (int s = 1; s <= strings; s++) {
        if (!outfit_has_slot(outfit, s))
            continue;
        const double bottom = straight_cut_at(&cut, outfit, s);

        put(solution, FIGURE_SADDLE_BOTTOM, s, bottom);
        put(solution, FIGURE_SADDLE_TOP, s, change[s] - bottom);
    }
}

/* An outer string's is that of the post beside it; an inner one's of both. */
static void turn_screws(struct solution *solution)
{
    const int last = solution->board->strings;

    if (!solution->setup->thread_mm.given)
        return;
    for (int s = 1; s <= last; s++) {
        const struct maybe change = figures_get(solution->figures, FIGURE_SADDLE_CHANGE, s);
        const int beside = s == 1 || s == last ? last + 1 - s : s;
        const double other =
            maybe_or(figures_get(solution->figures, FIGURE_SADDLE_CHANGE, beside), change.value);

        if (change.given)
            put(solution, FIGURE_SADDLE_TURNS, s,
                setup_at_post(solution->setup, change.value, other) /
                    solution->setup->thread_mm.value);
    }
}

static void solve_bridge(struct solution *solution)
{
    switch (solution->setup->bridge) {
    case BRIDGE_BLANK:
        cut_blank(solution);
        return;
    case BRIDGE_SCREW:
    case BRIDGE_POST:
    case BRIDGE_WHEEL:
        turn_screws(solution);
        return;
    case BRIDGE_UNKNOWN:
        return;
    }
}

void moves_solve(const struct setup *setup, const struct move_choice *held, struct figures *figures,
                 struct move_choice *ret_choice, struct string_lines *ret_lines)
{
    struct solution solution = {
        .setup = setup, .board = &setup->board, .held = held, .figures = figures};

    clear_figures(figures);
    if (setup->has_board) {
        solve_curve(&solution);
        solve_strings(&solution);
        solve_bridge(&solution);
    }
    if (ret_choice)
        *ret_choice = solution.choice;
    if (ret_lines)
        *ret_lines = solution.lines;
}
