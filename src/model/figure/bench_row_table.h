/* SPDX-License-Identifier: MIT */
/*
 * Every row of the bench's readings board, declared once, in the order in which a tech measures:
 * its cells, target, verdict, forecast and doubts, and its name on the customer's sheet. No include
 * guard: it is included with BENCH_ROW defined, and BAR_ROW where its rows are wanted.
 *
 * BENCH_ROW(id, members of struct bench_row). BAR_ROW is the same for a row that an instrument
 * played with a bar has in place of another (bench_row_in). A member with a bass and a treble end is
 * ENDS(bass, treble), or BOTH(x) if they are the same. The limits of doubt (before_mm, beside,
 * targets_mm) are of common practice, with no published source; each row says what they rest on.
 */

/* clang-format off */
#ifndef BAR_ROW
#define BAR_ROW(id, ...)
#define NO_BAR_ROW
#endif

/* 0.12 mm (.005 in) is what a hand adds or loses with leaves under a straightedge. */
BENCH_ROW(RELIEF,
          .label = "relief",
          .field = BOTH(FIELD_RELIEF), .inner = NO_FIELD, .aside = FIELD_ROD_TURN, .aside_label = "rod turns", .aside_short = "turns",
          .goal = GOAL_NEAR, .target = BOTH(FIELD_TARGET_RELIEF), .tolerance = FIELD_RELIEF_TOLERANCE,
          .figure = FIGURE_RELIEF, .explained = BOTH(FIGURE_RELIEF),
          .forecast = FORECAST_CURVE,
          .fret = AT_RELIEF_FRET, .move = MOVE_ROD, .sheet = BOTH("relief"),
          .before_mm = 0.12)

/* Judged by the gap once the action is right: a high saddle flatters a low slot. One nut leaves its
 * slots uneven by less than 0.25 mm (.010 in) or a third; leaves err as under the straightedge; gaps
 * that are wanted at the outer strings lie within 0.3 mm. */
BENCH_ROW(GAP,
          .label = "nut gap",
          .field = BOTH(FIELD_NUT_GAP), .inner = NO_FIELD, .aside = NO_FIELD, .aside_label = "",
          .goal = GOAL_NEAR, .target = ENDS(FIELD_TARGET_GAP_BASS, FIELD_TARGET_GAP_TREBLE),
          .tolerance = FIELD_GAP_TOLERANCE, .read_held = true,
          .figure = FIGURE_NUT_GAP, .explained = BOTH(FIGURE_SLOT_CHANGE),
          .forecast = FORECAST_HEIGHT,
          .fret = 1, .move = MOVE_SLOTS, .sheet = BOTH("gap over"),
          .before_mm = 0.12,
          .beside = {.mm = 0.25, .share = 1.0 / 3, .slope_mm = 0.05},
          .targets_mm = 0.3)

/* Saddles set one by one leave actions uneven by less than 0.7 mm or a quarter; a rule is read to
 * less than 0.6 mm; actions that are wanted at the outer strings lie within 1.5 mm. */
BENCH_ROW(ACTION,
          .label = "action",
          .field = BOTH(FIELD_ACTION), .inner = NO_FIELD, .aside = NO_FIELD, .aside_label = "",
          .goal = GOAL_NEAR, .target = ENDS(FIELD_TARGET_ACTION_BASS, FIELD_TARGET_ACTION_TREBLE),
          .tolerance = FIELD_ACTION_TOLERANCE, .over_bridge = true,
          .figure = FIGURE_ACTION, .explained = BOTH(FIGURE_SADDLE_CHANGE),
          .forecast = FORECAST_HEIGHT,
          .fret = AT_ACTION_FRET, .move = MOVE_SADDLE, .sheet = BOTH("action"),
          .before_mm = 0.6,
          .beside = {.mm = 0.7, .share = 0.25, .slope_mm = 0.3, .end_mm = 0.08},
          .targets_mm = 1.5)

/* Judged by the exposure after the saddle moves. It is sighted along the bridge, to 1.5 mm; the two
 * ends of one saddle stand out by less than 2 mm more or less. */
BENCH_ROW(EXPOSURE,
          .label = "exposure",
          .field = ENDS(FIELD_EXPOSURE_BASS, FIELD_EXPOSURE_TREBLE), .inner = FIELD_EXPOSURE, .aside = NO_FIELD, .aside_label = "",
          .goal = GOAL_LEAST, .target = BOTH(FIELD_EXPOSURE_MIN), .tolerance = NO_FIELD,
          .figure = NO_FIGURE, .explained = ENDS(FIGURE_EXPOSURE_BASS_AFTER, FIGURE_EXPOSURE_TREBLE_AFTER),
          .forecast = FORECAST_SADDLE,
          .fret = AT_SADDLE, .move = MOVE_RESET, .sheet = ENDS("saddle, bass", "saddle, treble"),
          .before_mm = 1.5,
          .beside = {.mm = 2})

/* A bar lies on all strings at once, so that they lie level at either end, to 1 mm. */
BAR_ROW(HEIGHT_NUT,
        .label = "at nut",
        .field = BOTH(FIELD_HEIGHT_NUT), .inner = NO_FIELD, .aside = NO_FIELD, .aside_label = "",
        .goal = GOAL_NEAR, .target = BOTH(FIELD_TARGET_HEIGHT_NUT), .tolerance = FIELD_HEIGHT_TOLERANCE,
        .figure = NO_FIGURE, .explained = BOTH(FIGURE_TENSION),
        .forecast = FORECAST_ALONE,
        .fret = AT_SADDLE, .move = MOVE_SLOTS, .sheet = BOTH("height at the nut"),
        .before_mm = 0,
        .beside = {.mm = 1})

BAR_ROW(HEIGHT_SADDLE,
        .label = "at end",
        .field = BOTH(FIELD_HEIGHT_SADDLE), .inner = NO_FIELD, .aside = NO_FIELD, .aside_label = "",
        .goal = GOAL_NEAR, .target = BOTH(FIELD_TARGET_HEIGHT_SADDLE), .tolerance = FIELD_HEIGHT_TOLERANCE,
        .figure = NO_FIGURE, .explained = BOTH(FIGURE_TENSION),
        .forecast = FORECAST_ALONE,
        .fret = AT_SADDLE, .move = MOVE_SADDLE, .sheet = BOTH("height at the saddle end"),
        .before_mm = 0,
        .beside = {.mm = 1})

#ifdef NO_BAR_ROW
#undef BAR_ROW
#undef NO_BAR_ROW
#endif
/* clang-format on */
