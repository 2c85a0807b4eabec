/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_SETUP_SETUP_H
#define SILLET_MODEL_SETUP_SETUP_H

#include <stdbool.h>

#include "base/status.h"
#include "model/frets/board.h"
#include "model/figure/figure.h"
#include "model/reading/finding.h"
#include "model/reading/outfit.h"
#include "model/reading/place.h"
#include "model/reading/record_access.h"
#include "model/setup/setback.h"

/*
 * One state of an instrument in numbers: the readings of a pass, the targets, and the
 * board they were read on. This is what the set-up formulas take; where it comes from
 * (a record, a test) is no concern of theirs.
 */

enum nut_method { NUT_OPEN, NUT_HELD_3 };
enum bridge_kind { BRIDGE_BLANK, BRIDGE_SCREW, BRIDGE_POST, BRIDGE_WHEEL, BRIDGE_UNKNOWN };
enum rod_kind { ROD_NONE, ROD_ONE_WAY, ROD_TWO_WAY, ROD_FIXED, ROD_UNKNOWN };
enum neck_join { JOIN_GLUED, JOIN_BOLTED, JOIN_POCKET, JOIN_THROUGH, JOIN_UNKNOWN };

enum { RELIEFS_MAX = FRETS_MAX + 2 };

struct relief_reading {
    int fret;
    double gap_mm; /* under the chord; negative: back-bow */
};

/* Lengths mm, arrays by string number (element 0 unused) or by fret. */
struct setup {
    struct outfit outfit;
    struct board board;
    bool has_board;
    struct setback setback[STRINGS_MAX + 1]; /* by string, element 0 unused */

    struct relief_reading relief[RELIEFS_MAX];
    int relief_count;
    struct maybe spot_mm[FRETS_MAX + 1];
    struct maybe fall_away_mm;
    enum nut_method nut_method;
    struct maybe nut_gap_mm[STRINGS_MAX + 1];
    struct maybe action_mm[STRINGS_MAX + 1];
    struct maybe height_nut_mm[STRINGS_MAX + 1], height_saddle_mm[STRINGS_MAX + 1];
    /* Outside the usual, or unlike its row: it stands for its own string alone. */
    bool nut_gap_unsure[STRINGS_MAX + 1];
    bool action_unsure[STRINGS_MAX + 1];
    struct maybe exposure_bass_mm, exposure_treble_mm;
    struct maybe exposure_mm[STRINGS_MAX + 1]; /* of inner strings with saddles of their own */

    struct maybe relief_target_mm;
    struct maybe action_target_bass_mm, action_target_treble_mm;
    struct maybe gap_target_bass_mm, gap_target_treble_mm;
    struct maybe height_nut_target_mm, height_saddle_target_mm;
    double relief_tolerance_mm, action_tolerance_mm, gap_tolerance_mm, height_tolerance_mm;

    enum bridge_kind bridge;
    struct maybe thread_mm, intonation_thread_mm;
    bool floating;           /* the bridge moves along the top as a whole */
    struct maybe post_ratio; /* of two posts or wheels: their distance over the outer strings' */
    /* What the saddles rise by where the posts rise by 1: less where the plate rests on the top
     * behind them, and as much where not given. And how far behind the posts they are. */
    struct maybe post_lever, post_to_saddle_mm;
    /* Exposure below which too little saddle is left, and little: one where somebody says what the
     * least is, else 1.6 mm (1/16 in) and 2 mm, common practice. */
    double exposure_min_mm, exposure_low_mm;
    double exposure_new_mm;
    struct maybe heel_depth_mm, pocket_length_mm, board_end_mm;
    enum rod_kind rod;

    double feeler_step_mm, rule_step_mm;
};

/*
 * Takes a pass as a setup. Pass 0 (none yet) gives a setup without readings.
 * What makes the geometry impossible is named in `findings`; has_board is then false or
 * the board says what it lacks.
 */
void setup_read(struct setup *ret_setup, struct place place, struct findings *findings);

/* Goes on with *setup to another pass of the record, for its relief: its relief readings take the
 * place of those in *setup. All else stays unless some visit changed the instrument. */
void setup_follow(struct setup *setup, struct place place);

/* The i-th reading taken once (string 0) or per string, with its field; NULL past the last.
 * Relief and spots, which are read per fret, are not among them. */
enum { SETUP_READINGS_MAX = 8 * STRINGS_MAX };
struct maybe *setup_reading(struct setup *setup, int i, enum field_id *ret_field, int *ret_string);

/* The step of the gauge that a length is read with (field_table.h), 0 for none. */
double setup_step_mm(const struct setup *setup, enum field_id field);

/* Whether it has a rod that turns, and whether the rocker was laid on any fret. */
bool setup_rod_turns(const struct setup *setup);
bool setup_is_rocked(const struct setup *setup);

/* Whether a string's height at the saddle can be set by itself: posts and wheels raise a whole
 * side, so that only what the outer strings need can be made. */
bool setup_has_own_height(const struct setup *setup, int string);

/* Where a whole side is raised: the strings between the outer two move as a bar through these does.
 * `mm` by string, from 1 on; the outer two are given. */
void setup_carry_inner(const struct setup *setup, double *mm);

/* What the post or wheel beside an outer string moves by, for the outer two to move by so much: one
 * farther out goes farther. What a string alone asks for is that of both. And back. */
double setup_at_post(const struct setup *setup, double own_mm, double other_mm);
double setup_at_string(const struct setup *setup, double own_post_mm, double other_post_mm);

/* The same of what they may be off by. */
double setup_at_post_u(const struct setup *setup, double u_mm);

/* A target given for the outer two strings that start at the nut, at `string`: an outer one's own,
 * between them by course, for which both are needed; a shorter string beyond them gets its
 * neighbour's. With one course either is enough. Absent where one that is
 * needed is absent, or is no number. */
struct maybe setup_target_at(const struct maybe *bass, const struct maybe *treble,
                             const struct outfit *outfit, int string);

/* Whether something stands farther off its target than its tolerance. On the edge it is
 * within, also where the two came from inches and do not subtract to the last digit. */
bool setup_is_off(double off_mm, double tolerance_mm);

#endif
