/* SPDX-License-Identifier: MIT */
#include "model/survey/survey_passes.h"

#include <math.h>
#include <stddef.h>

#include "model/setup/moves.h"
#include "model/setup/rocker.h"
#include "model/reading/place.h"
#include "model/setup/uncertainty.h"
#include "model/reading/work_mark.h"

/* The state that the prediction is made from. */
struct state {
    struct setup setup;
    struct figures figures;
    struct move_choice choice;
    struct string_lines lines;
};

static void solve(struct place place, struct state *ret_state)
{
    struct findings unused = {.count = 0};

    *ret_state = (struct state){.setup = {.has_board = false}};
    setup_read(&ret_state->setup, place, &unused);
    moves_solve(&ret_state->setup, NULL, &ret_state->figures, &ret_state->choice,
                &ret_state->lines);
    uncertainty_solve(&ret_state->setup, &ret_state->choice, &ret_state->figures);
}

static bool predict_after_rod(const struct state *state, int string, struct pass_action *action)
{
    const struct maybe after = figures_get(&state->figures, FIGURE_ACTION_AFTER_ROD, string);

    action->predicted_u_mm = state->figures.at[FIGURE_ACTION_AFTER_ROD][string].u;
    action->predicted_mm = after.value;
    return after.given;
}

/* The saddle's move ends at the target whatever was read, so the prediction is as uncertain as
 * the move: seen from the action fret, x_k/Ls of it. */
static bool predict_after_all(const struct state *state, int string, struct pass_action *action)
{
    const struct board *board = &state->setup.board;
    const struct string_line *line = &state->lines.after[string];

    if (!line->known)
        return false;
    const double share = board->station_mm[string][board->action_fret] / board->contact_mm[string];
    action->predicted_mm =
        string_line_height_mm(line, board->contact_mm[string],
                              board->station_mm[string][board->action_fret]) -
        neck_curve_height_mm(&state->lines.curve_after, board, string, board->action_fret);
    action->predicted_u_mm = state->choice.saddle[string]
                                 ? state->figures.at[FIGURE_SADDLE_CHANGE][string].u * share
                                 : state->figures.at[FIGURE_ACTION_AFTER_NUT][string].u;
    return isfinite(action->predicted_mm);
}

/* The action on every string once the neck has the relief read in a pass, from the state
 * before; absent where that is not known. */
static void predict_at_relief(struct place place, const struct state *state,
                              struct survey_pass *pass)
{
    const struct move_choice rod_alone = {.rod = true};
    struct findings unused = {.count = 0};
    struct setup after;
    struct figures figures;

    setup_read(&after, place, &unused);
    const struct maybe relief = neck_curve_find_relief(&after);
    if (!relief.given)
        return;
    after = state->setup;
    after.relief_target_mm = relief;
    moves_solve(&after, &rod_alone, &figures, NULL, NULL);
    for (int s = 1; s <= pass->strings; s++)
        if (pass->action[s].known)
            pass->action[s].at_relief_mm = figures_get(&figures, FIGURE_ACTION_AFTER_ROD, s);
}

static void compare(struct place place, const struct state *state, int string,
                    struct survey_pass *pass)
{
    struct pass_action action = {.known = false};
    const struct maybe read = place_read_at(place, FIELD_ACTION, string, 0);

    if (!read.given || !(pass->after_rod ? predict_after_rod(state, string, &action)
                                         : predict_after_all(state, string, &action)))
        return;
    action.read_mm = read.value;
    action.read_u_mm = 2 * uncertainty_of_step(setup_step_mm(&state->setup, FIELD_ACTION));
    action.known = rod_history_compare(action.predicted_mm, action.predicted_u_mm, action.read_mm,
                                       action.read_u_mm, &action.off) == STATUS_OK;
    pass->action[string] = action;
}

/* Whether the crown that the action is read over was taken down: it is another action then. */
static bool is_dressed(struct place before, const struct setup *setup)
{
    struct setup level;
    const int fret = setup->board.action_fret;

    return work_mark_line(before, MOVE_FRETS) > 0 && fret > 0 &&
           setup->spot_mm[fret].value != rocker_level(setup, &level)->spot_mm[fret].value;
}

bool survey_pass_next(const struct record *record, struct survey_pass *pass)
{
    struct place place = place_of(record, pass->visit, pass->pass);
    const struct place before = place;
    struct state state;

    if (!place_next(&place))
        return false;
    struct survey_pass next = {.visit = place.visit, .pass = place.pass};
    if (place.visit == before.visit && work_mark_line(before, MOVE_RESET) == 0) {
        const struct maybe turn = place_read(place, FIELD_ROD_TURN);

        next.before = before.pass;
        solve(before, &state);
        next.after_rod = turn.given && turn.value != 0 && state.choice.rod &&
                         work_mark_line(before, MOVE_SLOTS) == 0 &&
                         work_mark_line(before, MOVE_SADDLE) == 0;
        next.strings = is_dressed(before, &state.setup) ? 0 : state.setup.board.strings;
        for (int s = 1; s <= next.strings; s++)
            compare(place, &state, s, &next);
        if (next.after_rod)
            predict_at_relief(place, &state, &next);
    }
    *pass = next;
    return true;
}
