/* SPDX-License-Identifier: MIT */
#include "model/setup/setup.h"

#include <math.h>
#include <stddef.h>

#include "model/doubt/doubt_row.h"

/* Where nobody says what the least exposure is, which field_table.h then gives. */
#define EXPOSURE_LOW_MM 2.0

/* The members that hold readings taken once or per string. */
static const struct {
    enum field_id field;
    size_t at;
} places[] = {
    {FIELD_FALL_AWAY, offsetof(struct setup, fall_away_mm)},
    {FIELD_NUT_GAP, offsetof(struct setup, nut_gap_mm)},
    {FIELD_ACTION, offsetof(struct setup, action_mm)},
    {FIELD_HEIGHT_NUT, offsetof(struct setup, height_nut_mm)},
    {FIELD_HEIGHT_SADDLE, offsetof(struct setup, height_saddle_mm)},
    {FIELD_EXPOSURE_BASS, offsetof(struct setup, exposure_bass_mm)},
    {FIELD_EXPOSURE_TREBLE, offsetof(struct setup, exposure_treble_mm)},
    {FIELD_EXPOSURE, offsetof(struct setup, exposure_mm)},
};

_Static_assert(sizeof places / sizeof places[0] * STRINGS_MAX <= SETUP_READINGS_MAX,
               "there are more readings than setup.h says");

struct maybe *setup_reading(struct setup *setup, int i, enum field_id *ret_field, int *ret_string)
{
    for (size_t k = 0; k < sizeof places / sizeof places[0]; k++) {
        const bool by_string = field_get(places[k].field)->per == PER_STRING;
        const int count = by_string ? setup->board.strings : 1;

        if (i < count) {
            *ret_field = places[k].field;
            *ret_string = by_string ? i + 1 : 0;
            return (struct maybe *)(void *)((char *)setup + places[k].at) + *ret_string;
        }
        i -= count;
    }
    return NULL;
}

double setup_step_mm(const struct setup *setup, enum field_id field)
{
    switch (field_get(field)->step) {
    case STEP_FEELER:
        return setup->feeler_step_mm;
    case STEP_RULE:
        return setup->rule_step_mm;
    case STEP_TUNER:
    case STEP_NONE:
        break;
    }
    return 0;
}

static int fret_or_none(const struct record *record, enum field_id field)
{
    return (int)maybe_or(record_entered_one(record, field), -1);
}

/* The outer scales: one scale for both, or the two of a multi-scale board. */
static bool read_scales(const struct record *record, struct board_plan *plan)
{
    const struct maybe both = record_entered_one(record, FIELD_SCALE);
    const struct maybe treble = record_entered_one(record, FIELD_SCALE_TREBLE);
    const struct maybe bass = record_entered_one(record, FIELD_SCALE_BASS);

    if (treble.given && bass.given) {
        plan->scale_treble_mm = treble.value;
        plan->scale_bass_mm = bass.value;
        return true;
    }
    plan->scale_treble_mm = plan->scale_bass_mm = maybe_or(both, 0);
    return both.given;
}

static void read_strings(struct place place, struct setup *setup, struct board_plan *plan)
{
    for (int s = 1; s <= plan->strings; s++) {
        setback_find(place, &setup->outfit, s, &setup->setback[s]);
        plan->setback_mm[s] = setup->setback[s].about_mm;
        plan->from_fret[s] = setup->outfit.from_fret[s];
    }
}

static void find_impossible(const struct record *record, const struct outfit *outfit,
                            struct findings *findings)
{
    if (outfit->courses_uneven)
        findings_add(findings, FINDING_COURSES_UNEVEN,
                     (int)maybe_or(record_entered_one(record, FIELD_COURSES), 0));
    for (int s = 1; s <= outfit->strings; s++)
        if (outfit->start_beyond[s])
            findings_add(findings, FINDING_START_BEYOND, s);
    if (outfit->none_at_nut)
        findings_add(findings, FINDING_START_NONE, 0);
}

static bool read_plan(struct place place, struct setup *setup, struct board_plan *plan,
                      struct findings *findings)
{
    const struct record *record = &place.record;
    const struct outfit *outfit = &setup->outfit;
    const int strings = outfit->strings;
    const struct maybe frets = record_entered_one(record, FIELD_FRETS);
    const bool scales = read_scales(record, plan);

    find_impossible(record, outfit, findings);
    if (!scales)
        findings_add(findings, FINDING_SCALE_ABSENT, 0);
    if (strings == 0)
        findings_add(findings, FINDING_STRINGS_ABSENT, 0);
    if (!frets.given)
        findings_add(findings, FINDING_FRETS_ABSENT, 0);
    if (!scales || strings == 0 || !frets.given)
        return false;
    plan->strings = strings;
    plan->courses = outfit->courses;
    plan->frets = (int)frets.value;
    plan->join_fret = fret_or_none(record, FIELD_JOIN_FRET);
    plan->heel_fret = fret_or_none(record, FIELD_HEEL_FRET);
    plan->action_fret = (int)record_or_fallback(record, FIELD_ACTION_FRET);
    plan->relief_fret = fret_or_none(record, FIELD_RELIEF_FRET);
    plan->relief_end_low = (int)record_or_fallback(record, FIELD_RELIEF_END_LOW);
    plan->relief_end_high = fret_or_none(record, FIELD_RELIEF_END_HIGH);
    plan->unfretted = outfit->lap;
    plan->pocket =
        record_choice_or(record, reading_key_one(FIELD_JOIN), JOIN_UNKNOWN) == JOIN_POCKET;
    read_strings(place, setup, plan);
    return true;
}

static void add_relief(struct setup *setup, int fret, double gap_mm, struct findings *findings)
{
    const struct board *board = &setup->board;

    if (fret <= board->end_low || fret >= board->end_high) {
        findings_add(findings, FINDING_RELIEF_FRET_OUTSIDE, fret);
        return;
    }
    if (setup->relief_count < RELIEFS_MAX)
        setup->relief[setup->relief_count++] =
            (struct relief_reading){.fret = fret, .gap_mm = gap_mm};
}

static void read_reliefs(struct setup *setup, struct place place, struct findings *findings)
{
    const struct maybe gap = place_read(place, FIELD_RELIEF);
    const int last = place_reads_any(place, FIELD_RELIEF_AT, 0) ? FRETS_MAX : -1;
    bool named = false;

    for (int fret = 0; fret <= last; fret++) {
        const struct maybe at = place_read_at(place, FIELD_RELIEF_AT, 0, fret);

        if (!at.given)
            continue;
        add_relief(setup, fret, at.value, findings);
        named = named || fret == setup->board.relief_fret;
    }
    /* One gap read twice at one fret would weigh double; the key that names it counts. */
    if (gap.given && !named && setup->board.has_relief)
        add_relief(setup, setup->board.relief_fret, gap.value, findings);
}

static bool is_unusual(const struct record *record, struct reading_key key)
{
    const struct reading *reading = record_get(record, &key);

    return reading && reading->value.state == READING_UNUSUAL;
}

/* What is unlike its row may be true of its string, and is not taken over to others; nor is what a
 * string reads that starts higher. */
static void find_unsure(struct place place, enum field_id field, const struct outfit *outfit,
                        const struct maybe *read, bool *ret_unsure)
{
    struct maybe row[STRINGS_MAX + 1];

    for (int s = 1; s <= outfit->strings; s++) {
        outfit_row_of(outfit, s, read, row);
        ret_unsure[s] = outfit->from_fret[s] > 0 ||
                        is_unusual(&place.record, place_key_at(place, field, s, 0)) ||
                        doubt_is_odd_one(field, row, outfit->strings, s);
    }
}

static void read_pass(struct setup *setup, struct place place, struct findings *findings)
{
    const struct board *board = &setup->board;
    const bool any_spot = place_reads_any(place, FIELD_SPOT, 0);
    struct maybe *read;
    enum field_id field;
    int string;

    if (board->has_curve)
        read_reliefs(setup, place, findings);
    for (int fret = 1; any_spot && fret <= board->frets; fret++)
        setup->spot_mm[fret] = place_read_at(place, FIELD_SPOT, 0, fret);
    for (int i = 0; (read = setup_reading(setup, i, &field, &string)); i++)
        *read = place_read_at(place, field, string, 0);
    setup->nut_method = (enum nut_method)record_choice_or(
        &place.record, place_key(place, FIELD_NUT_METHOD), NUT_OPEN);
    find_unsure(place, FIELD_NUT_GAP, &setup->outfit, setup->nut_gap_mm, setup->nut_gap_unsure);
    find_unsure(place, FIELD_ACTION, &setup->outfit, setup->action_mm, setup->action_unsure);
    if (setup->nut_method == NUT_HELD_3 && board->frets < 3)
        findings_add(findings, FINDING_HELD_NEEDS_FRETS, 0);
}

static void read_targets(struct setup *setup, const struct record *record)
{
    setup->relief_target_mm = record_entered_one(record, FIELD_TARGET_RELIEF);
    setup->action_target_bass_mm = record_entered_one(record, FIELD_TARGET_ACTION_BASS);
    setup->action_target_treble_mm = record_entered_one(record, FIELD_TARGET_ACTION_TREBLE);
    setup->gap_target_bass_mm = record_entered_one(record, FIELD_TARGET_GAP_BASS);
    setup->gap_target_treble_mm = record_entered_one(record, FIELD_TARGET_GAP_TREBLE);
    setup->height_nut_target_mm = record_entered_one(record, FIELD_TARGET_HEIGHT_NUT);
    setup->height_saddle_target_mm = record_entered_one(record, FIELD_TARGET_HEIGHT_SADDLE);
    setup->height_tolerance_mm = record_or_fallback(record, FIELD_HEIGHT_TOLERANCE);
    setup->relief_tolerance_mm = record_or_fallback(record, FIELD_RELIEF_TOLERANCE);
    setup->action_tolerance_mm = record_or_fallback(record, FIELD_ACTION_TOLERANCE);
    setup->gap_tolerance_mm = record_or_fallback(record, FIELD_GAP_TOLERANCE);
    setup->feeler_step_mm = record_or_fallback(record, FIELD_FEELER_STEP);
    setup->rule_step_mm = record_or_fallback(record, FIELD_RULE_STEP);
}

static struct maybe read_post_ratio(const struct setup *setup, const struct record *record)
{
    const struct maybe posts = record_entered_one(record, FIELD_POST_SPREAD);
    const struct maybe strings = record_entered_one(record, FIELD_SADDLE_SPREAD);

    if ((setup->bridge != BRIDGE_POST && setup->bridge != BRIDGE_WHEEL) || !posts.given ||
        !strings.given)
        return maybe_absent();
    return maybe_finite(posts.value / strings.value);
}

/* A plate that rests on the top behind its saddles turns about that rest; one that floats is
 * brought level again, and rises as a whole. */
static void read_post_lever(struct setup *setup, const struct record *record,
                            struct findings *findings)
{
    const struct maybe rest = record_entered_one(record, FIELD_POST_TO_REST);

    if (setup->bridge != BRIDGE_POST)
        return;
    setup->post_to_saddle_mm = record_entered_one(record, FIELD_POST_TO_SADDLE);
    if (!setup->post_to_saddle_mm.given || !rest.given)
        return;
    if (rest.value > setup->post_to_saddle_mm.value)
        setup->post_lever = maybe_finite(1 - setup->post_to_saddle_mm.value / rest.value);
    else
        findings_add(findings, FINDING_REST_BEFORE_SADDLES, 0);
}

static void read_structure(struct setup *setup, const struct record *record,
                           struct findings *findings)
{
    setup->bridge = (enum bridge_kind)record_choice_or(record, reading_key_one(FIELD_BRIDGE_KIND),
                                                       BRIDGE_UNKNOWN);
    setup->thread_mm = record_entered_one(record, FIELD_THREAD);
    setup->intonation_thread_mm = record_entered_one(record, FIELD_INTONATION_THREAD);
    setup->floating = record_or_fallback(record, FIELD_FLOATING) != 0;
    setup->post_ratio = read_post_ratio(setup, record);
    read_post_lever(setup, record, findings);
    setup->exposure_min_mm = record_or_fallback(record, FIELD_EXPOSURE_MIN);
    setup->exposure_low_mm =
        maybe_or(record_entered_one(record, FIELD_EXPOSURE_MIN), EXPOSURE_LOW_MM);
    setup->exposure_new_mm = record_or_fallback(record, FIELD_EXPOSURE_NEW);
    setup->heel_depth_mm = record_entered_one(record, FIELD_HEEL_DEPTH);
    setup->pocket_length_mm = record_entered_one(record, FIELD_POCKET_LENGTH);
    setup->board_end_mm = record_entered_one(record, FIELD_BOARD_END);
    setup->rod = (enum rod_kind)record_choice_or(record, reading_key_one(FIELD_ROD), ROD_UNKNOWN);
}

void setup_read(struct setup *ret_setup, struct place place, struct findings *findings)
{
    struct board_plan plan = {0};

    *ret_setup = (struct setup){.has_board = false};
    outfit_read(&ret_setup->outfit, &place.record, place.visit);
    read_targets(ret_setup, &place.record);
    read_structure(ret_setup, &place.record, findings);
    if (!read_plan(place, ret_setup, &plan, findings))
        return;
    ret_setup->has_board = board_init(&ret_setup->board, &plan, findings) == STATUS_OK;
    if (ret_setup->has_board && place.visit > 0 && place.pass > 0)
        read_pass(ret_setup, place, findings);
}

void setup_follow(struct setup *setup, struct place place)
{
    struct findings unused = {.count = 0};

    if (record_is_changed(&place.record)) {
        setup_read(setup, place, &unused);
        return;
    }
    setup->relief_count = 0;
    if (setup->has_board && place.visit > 0 && place.pass > 0)
        read_reliefs(setup, place, &unused);
}

bool setup_rod_turns(const struct setup *setup)
{
    return setup->rod != ROD_NONE && setup->rod != ROD_FIXED;
}

bool setup_is_rocked(const struct setup *setup)
{
    for (int n = 1; n <= setup->board.frets; n++)
        if (setup->spot_mm[n].given)
            return true;
    return false;
}

bool setup_has_own_height(const struct setup *setup, int string)
{
    return (setup->bridge != BRIDGE_POST && setup->bridge != BRIDGE_WHEEL) ||
           outfit_step(&setup->outfit, string) == 0 ||
           outfit_step(&setup->outfit, string) == outfit_last_step(&setup->outfit);
}

void setup_carry_inner(const struct setup *setup, double *mm)
{
    const struct outfit *outfit = &setup->outfit;

    for (int s = 1; s <= outfit->strings; s++)
        if (!setup_has_own_height(setup, s))
            mm[s] = mm[1] + (mm[outfit_first(outfit, outfit->strings)] - mm[1]) *
                                outfit_step(outfit, s) / outfit_last_step(outfit);
}

/* The mean stays, and the difference is `ratio` times as large. */
static double spread_by(double own_mm, double other_mm, double ratio)
{
    return own_mm + (own_mm - other_mm) / 2 * (ratio - 1);
}

double setup_at_post(const struct setup *setup, double own_mm, double other_mm)
{
    return spread_by(own_mm, other_mm, maybe_or(setup->post_ratio, 1)) /
           maybe_or(setup->post_lever, 1);
}

double setup_at_string(const struct setup *setup, double own_post_mm, double other_post_mm)
{
    return spread_by(own_post_mm, other_post_mm, 1 / maybe_or(setup->post_ratio, 1)) *
           maybe_or(setup->post_lever, 1);
}

double setup_at_post_u(const struct setup *setup, double u_mm)
{
    return u_mm * fmax(1, maybe_or(setup->post_ratio, 1)) / maybe_or(setup->post_lever, 1);
}

/* The step of the lowest string that starts at the nut: a bass target is meant for that. */
static int last_from_nut(const struct outfit *outfit)
{
    int s = outfit->strings;

    while (s > 0 && outfit->from_fret[s] != 0)
        s--;
    return s > 0 ? outfit_step(outfit, s) : 0;
}

struct maybe setup_target_at(const struct maybe *bass, const struct maybe *treble,
                             const struct outfit *outfit, int string)
{
    const int last = last_from_nut(outfit);
    const int step = outfit_step(outfit, string) < last ? outfit_step(outfit, string) : last;
    /* An outer string needs only its own target, the inner ones both. */
    const struct maybe *own = step == 0 ? treble : bass;

    if (last == 0 && !treble->given)
        own = bass;
    if ((step == 0 || step == last) && own->given)
        return maybe_finite(own->value);
    if (!bass->given || !treble->given || last == 0)
        return maybe_absent();
    return maybe_finite(treble->value + (bass->value - treble->value) * step / last);
}

bool setup_is_off(double off_mm, double tolerance_mm)
{
    const double rounding_mm = 1e-9;

    return fabs(off_mm) > tolerance_mm + rounding_mm;
}
