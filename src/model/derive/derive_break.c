/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_break.h"

#include <math.h>
#include <string.h>

#include "model/common/assumption.h"
#include "model/reading/record_access.h"
#include "model/setup/break_angle.h"
#include "model/setup/uncertainty.h"

/* What holds for all strings. */
struct anchor {
    const struct setup *setup;
    const struct figures *figures;
    struct maybe distance_mm, drop_mm;
    struct break_doubt doubt;
};

/* A string of such a kind is held at the top of the bridge, by a pin or a tie. */
static bool has_flat_top(const struct record *record, const struct setup *setup)
{
    static const char *const held_elsewhere[] = {"electric",  "bass",     "archtop",
                                                 "resonator", "mandolin", "banjo"};
    char kind[KIND_NAME_SIZE];

    if (setup->bridge != BRIDGE_BLANK && setup->bridge != BRIDGE_UNKNOWN)
        return false;
    if (!record_kind(record, kind))
        return setup->bridge == BRIDGE_BLANK;
    for (size_t i = 0; i < sizeof held_elsewhere / sizeof held_elsewhere[0]; i++)
        if (strcmp(kind, held_elsewhere[i]) == 0)
            return false;
    return true;
}

/* Over the bridge the string goes down in front by its own slope; with the straightedge on the
 * string that is in the drop. */
static bool find_string(const struct anchor *anchor, struct maybe exposure_mm, int string,
                        struct string_break *ret_at)
{
    const struct maybe nut = figures_get(anchor->figures, FIGURE_NUT_HEIGHT, string);
    const struct maybe saddle = figures_get(anchor->figures, FIGURE_SADDLE_HEIGHT, string);
    const struct maybe pull = figures_get(anchor->figures, FIGURE_TENSION, string);

    *ret_at = (struct string_break){.distance_mm = anchor->distance_mm.value,
                                    .pull_n = maybe_or(pull, 0)};
    if (anchor->drop_mm.given) {
        ret_at->drop_mm = anchor->drop_mm.value;
        return true;
    }
    if (!exposure_mm.given || !nut.given || !saddle.given)
        return false;
    ret_at->drop_mm = exposure_mm.value;
    ret_at->front_rad = atan((saddle.value - nut.value) / anchor->setup->board.contact_mm[string]);
    return true;
}

static void set_string(const struct anchor *anchor, const struct string_break *at, int string,
                       struct figures *figures)
{
    double angle_rad, force_n;

    if (break_angle_find(at, &angle_rad) == STATUS_OK)
        figures_set_u(figures, FIGURE_BREAK_ANGLE, string, angle_rad,
                      break_angle_u(at, &anchor->doubt));
    if (at->pull_n > 0 && break_angle_find_force(at, &force_n) == STATUS_OK)
        figures_set_u(figures, FIGURE_DOWNFORCE, string, force_n,
                      break_angle_force_u(at, &anchor->doubt));
}

/* All strings as one in the middle of the outer two, at the mean exposure. */
static void set_total(const struct anchor *anchor, const struct string_break *bass,
                      const struct string_break *treble, struct figures *figures)
{
    const struct maybe total_n = figures_get(figures, FIGURE_TENSION_TOTAL, 0);
    struct string_break all = {.drop_mm = (bass->drop_mm + treble->drop_mm) / 2,
                               .distance_mm = bass->distance_mm,
                               .front_rad = (bass->front_rad + treble->front_rad) / 2,
                               .pull_n = maybe_or(total_n, 0)};
    struct break_doubt doubt = anchor->doubt;
    double force_n;

    if (!total_n.given || break_angle_find_force(&all, &force_n) != STATUS_OK)
        return;
    doubt.drop_u_mm = hypot(doubt.drop_u_mm, assumption_get(ASSUME_SADDLE_ARCH)->u);
    figures_set_u(figures, FIGURE_DOWNFORCE_TOTAL, 0, force_n, break_angle_force_u(&all, &doubt));
}

void derive_break(const struct record *record, const struct setup *setup, struct figures *figures)
{
    const int strings = setup->board.strings;
    const double step_u_mm = uncertainty_of_step(setup_step_mm(setup, FIELD_EXPOSURE_BASS));
    struct anchor anchor = {.setup = setup,
                            .figures = figures,
                            .distance_mm = record_entered_one(record, FIELD_ANCHOR_DISTANCE),
                            .drop_mm = record_entered_one(record, FIELD_ANCHOR_DROP)};
    struct string_break bass, treble;

    if (!setup->has_board || strings < 1 || !anchor.distance_mm.given ||
        (!anchor.drop_mm.given && !has_flat_top(record, setup)))
        return;
    anchor.doubt = (struct break_doubt){
        .drop_u_mm = step_u_mm,
        .distance_u_mm = assumption_get(ASSUME_ANCHOR)->u,
        .tilt_u_rad = anchor.drop_mm.given ? 0 : assumption_get(ASSUME_CHORD_TILT)->u,
        .pull_share_u = assumption_get(ASSUME_PULL)->u,
    };
    const bool has_bass = find_string(&anchor, setup->exposure_bass_mm, strings, &bass);
    const bool has_treble = find_string(&anchor, setup->exposure_treble_mm, 1, &treble);
    if (has_bass)
        set_string(&anchor, &bass, strings, figures);
    if (has_treble && strings > 1)
        set_string(&anchor, &treble, 1, figures);
    if (has_bass && has_treble)
        set_total(&anchor, &bass, &treble, figures);
}
