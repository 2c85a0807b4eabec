/* SPDX-License-Identifier: MIT */
/*
 * Every row of the bench's readings board, declared once, in the order in which a tech measures:
 * its cells, target, verdict, forecast and doubts, and its name on the customer's sheet. No include
 * guard: it is included with BENCH_ROW defined (bench_row.h, bench_row.c).
 *
 * BENCH_ROW(id, label, fields, aside, aside_label,
 *           goal, targets, tolerance, read_held,
 *           figure, explained, forecast,
 *           fret, move, sheet,
 *           before_mm, beside, targets_mm)
 *
 * The columns are those of struct bench_row (bench_row.h). A column with a bass and a treble end
 * is ENDS(bass, treble), or BOTH(x) if they are the same.
 */

/* clang-format off */
BENCH_ROW(RELIEF, "relief", BOTH(FIELD_RELIEF), FIELD_ROD_TURN, "rod turns",
          GOAL_NEAR, BOTH(FIELD_TARGET_RELIEF), FIELD_RELIEF_TOLERANCE, false,
          FIGURE_RELIEF, BOTH(FIGURE_RELIEF), FORECAST_CURVE,
          AT_RELIEF_FRET, MOVE_ROD, BOTH("relief"),
          0.12, SLACK(0, 0, 0, 0), 0)

/* Judged by the gap once the action is right: a high saddle flatters a low slot. */
BENCH_ROW(GAP, "nut gap", BOTH(FIELD_NUT_GAP), NO_FIELD, "",
          GOAL_NEAR, ENDS(FIELD_TARGET_GAP_BASS, FIELD_TARGET_GAP_TREBLE), FIELD_GAP_TOLERANCE, true,
          FIGURE_NUT_GAP, BOTH(FIGURE_SLOT_CHANGE), FORECAST_HEIGHT,
          1, MOVE_SLOTS, BOTH("gap over fret 1"),
          0.12, SLACK(0.25, 1.0 / 3, 0.05, 0.05), 0.3)

BENCH_ROW(ACTION, "action", BOTH(FIELD_ACTION), NO_FIELD, "",
          GOAL_NEAR, ENDS(FIELD_TARGET_ACTION_BASS, FIELD_TARGET_ACTION_TREBLE), FIELD_ACTION_TOLERANCE, false,
          FIGURE_ACTION, BOTH(FIGURE_SADDLE_CHANGE), FORECAST_HEIGHT,
          AT_ACTION_FRET, MOVE_SADDLE, BOTH("action"),
          0.6, SLACK(0.7, 0.25, 0.3, 0.08), 1.5)

/* Judged by the exposure after the saddle moves. */
BENCH_ROW(EXPOSURE, "exposure", ENDS(FIELD_EXPOSURE_BASS, FIELD_EXPOSURE_TREBLE), NO_FIELD, "",
          GOAL_LEAST, BOTH(FIELD_EXPOSURE_MIN), NO_FIELD, false,
          NO_FIGURE, ENDS(FIGURE_EXPOSURE_BASS_AFTER, FIGURE_EXPOSURE_TREBLE_AFTER), FORECAST_SADDLE,
          AT_SADDLE, MOVE_RESET, ENDS("saddle, bass", "saddle, treble"),
          1.5, SLACK(2, 0, 0, 0), 0)
/* clang-format on */
