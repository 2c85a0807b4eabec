/* SPDX-License-Identifier: MIT */
#include "words/explain_item.h"

#include "model/setup/string_target.h"

/* The height of a crown as it is or after the rod. */
static struct maybe find_crown(const struct derived *derived, int lane, int fret, bool after)
{
    const struct string_lines *lines = &derived->lines;

    if (fret < 1 || !(after ? lines->has_after : lines->has_now))
        return maybe_absent();
    return maybe_given(neck_curve_height_mm(after ? &lines->curve_after : &lines->curve_now,
                                            &derived->setup.board, lane, fret));
}

static struct maybe find_station(const struct board *board, int lane, int fret, bool known)
{
    if (!known || fret < 0 || fret > board->frets)
        return maybe_absent();
    return maybe_given(board->station_mm[lane][fret]);
}

/* From the body join to the saddle. */
static struct maybe find_reach(const struct board *board)
{
    const struct maybe join = find_station(board, LANE_MIDDLE, board->join_fret, true);

    return join.given ? maybe_given(board->contact_mm[LANE_MIDDLE] - join.value) : join;
}

struct maybe explain_item(const struct derived *derived, enum setup_item item, int lane)
{
    const struct board *board = &derived->setup.board;

    if (!derived->setup.has_board)
        return maybe_absent();
    switch (item) {
    case ITEM_X_FIRST:
        return find_station(board, lane, board_gap_fret(board, lane), true);
    case ITEM_X_ACTION:
        return find_station(board, lane, board->action_fret, true);
    case ITEM_X_LOW_END:
        return find_station(board, lane, board->end_low, board->has_curve);
    case ITEM_X_HIGH_END:
        return find_station(board, lane, board->end_high, board->has_curve);
    case ITEM_X_HEEL:
        return find_station(board, lane, board->heel_fret, board->has_curve);
    case ITEM_CONTACT:
        return maybe_given(board->contact_mm[lane]);
    case ITEM_REACH:
        return find_reach(board);
    case ITEM_Z_FIRST:
        return find_crown(derived, lane, board_gap_fret(board, lane), false);
    case ITEM_Z_ACTION:
        return find_crown(derived, lane, board->action_fret, false);
    case ITEM_Z_FIRST_AFTER:
        return find_crown(derived, lane, board_gap_fret(board, lane), true);
    case ITEM_Z_ACTION_AFTER:
        return find_crown(derived, lane, board->action_fret, true);
    case ITEM_ACTION_WANTED:
        return string_target_action(&derived->setup, lane);
    case ITEM_GAP_WANTED:
        return string_target_gap(&derived->setup, lane);
    }
    return maybe_absent();
}
