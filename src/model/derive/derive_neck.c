/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_neck.h"

#include <math.h>
#include <stddef.h>

#include "model/common/assumption.h"
#include "model/derive/neck_facts.h"
#include "model/neck/neck_beam.h"
#include "model/neck/neck_doubt.h"

/* The figures of one state of the slot. */
struct beam_figures {
    enum figure_id first, heel, relief;
};

static const struct beam_figures beam_figures[] = {
    [NECK_SLOT_FOUND] = {FIGURE_EI_FIRST, FIGURE_EI_HEEL, FIGURE_RELIEF_PREDICTED},
    [NECK_SLOT_FILLED] = {FIGURE_EI_FIRST_FILLED, FIGURE_EI_HEEL_FILLED, FIGURE_RELIEF_FILLED},
    [NECK_SLOT_RECUT] = {FIGURE_EI_FIRST_RECUT, FIGURE_EI_HEEL_RECUT, FIGURE_RELIEF_RECUT},
};

static double value_of(const struct record *record, enum field_id field)
{
    return maybe_or(record_entered_one(record, field), 0);
}

/* How far a beam is known: which states of the slot can be reckoned. */
struct beam {
    struct neck_beam shape;
    struct neck_beam_string strings[STRINGS_MAX];
    bool has_slot[NECK_SLOT_RECUT + 1];
    struct neck_doubt doubt;
};

/* The slot's sizes. A neck without a rod has no slot unless one is entered. */
static void read_slot(const struct record *record, const struct setup *setup, struct beam *beam)
{
    const struct maybe width = record_entered_one(record, FIELD_SLOT_WIDTH);
    const struct maybe depth = record_entered_one(record, FIELD_SLOT_DEPTH);
    const struct maybe spline = record_entered_one(record, FIELD_SPLINE_MODULUS);
    const struct maybe recut_width = record_entered_one(record, FIELD_RECUT_WIDTH);
    const struct maybe recut_depth = record_entered_one(record, FIELD_RECUT_DEPTH);
    const bool slot = width.given && depth.given;
    const bool whole = setup->rod == ROD_NONE && !width.given && !depth.given;
    struct neck_make *make = &beam->shape.make;

    make->slot_width_mm = maybe_or(width, 0);
    make->slot_depth_mm = maybe_or(depth, 0);
    make->spline_modulus_mpa = maybe_or(spline, 0);
    make->recut_width_mm = maybe_or(recut_width, 0);
    make->recut_depth_mm = maybe_or(recut_depth, 0);
    beam->has_slot[NECK_SLOT_FOUND] = slot || whole;
    beam->has_slot[NECK_SLOT_FILLED] = slot && spline.given;
    beam->has_slot[NECK_SLOT_RECUT] =
        slot && spline.given && recut_width.given && recut_depth.given;
}

/* What is absent stays 0, which the beam refuses. */
static void read_shape(const struct record *record, const struct setup *setup, struct beam *beam)
{
    const struct board *board = &setup->board;
    const double *x = board->station_mm[LANE_MIDDLE];
    struct neck_beam *shape = &beam->shape;

    shape->make.board_thickness_mm = value_of(record, FIELD_THICKNESS);
    shape->make.board_modulus_mpa = maybe_or(neck_facts_wood(record, FIELD_BOARD_MODULUS), 0);
    shape->make.shaft_modulus_mpa = maybe_or(neck_facts_wood(record, FIELD_NECK_MODULUS), 0);
    shape->scale_mm = board->scale_mm[LANE_MIDDLE];
    shape->first_fret_mm = x[1];
    shape->low_end_mm = x[board->end_low];
    shape->high_end_mm = x[board->end_high];
    shape->heel_mm = x[board->heel_fret];
    shape->relief_mm = x[board->relief_fret];
    shape->last_fret_mm = x[board->frets];
    shape->width_nut_mm = value_of(record, FIELD_WIDTH_NUT);
    shape->width_join_mm = value_of(record, FIELD_WIDTH_JOIN);
    shape->shaft_first_mm = value_of(record, FIELD_SHAFT_FIRST);
    shape->shaft_heel_mm = value_of(record, FIELD_SHAFT_HEEL);
    shape->crown_height_mm = outfit_asks(&setup->outfit, FIELD_CROWN_HEIGHT, 0)
                                 ? value_of(record, FIELD_CROWN_HEIGHT)
                                 : 0;
}

/* The strings and the curve as they stand; false when a string's line is not known. */
static bool take_strings(const struct setup *setup, const struct string_lines *lines,
                         struct beam *beam)
{
    const struct board *board = &setup->board;

    for (int s = 1; s <= board->strings; s++) {
        if (!lines->now[s].known)
            return false;
        /* A string that starts higher is taken to pull from the nut on, along its line. */
        beam->strings[s - 1] = (struct neck_beam_string){
            .scale_mm = board->scale_mm[s] + board->start_mm[s],
            .saddle_x_mm = board->contact_mm[s] + board->start_mm[s],
            .nut_height_mm =
                string_line_height_mm(&lines->now[s], board->contact_mm[s], -board->start_mm[s]),
            .saddle_height_mm = lines->now[s].saddle_mm,
        };
    }
    beam->shape.strings = beam->strings;
    beam->shape.string_count = board->strings;
    beam->shape.curvature_per_mm = lines->curve_now.kappa_per_mm;
    /* Where the relief's end is the last fret there is nothing that could fall away. */
    beam->shape.fall_away_mm = board->end_high < board->frets ? lines->curve_now.fall_away_mm : 0;
    return true;
}

/* A modulus that was not entered is that of its wood by name. */
static void doubt_beam(const struct record *record, const struct board *board, struct beam *beam)
{
    const double *x = board->station_mm[LANE_MIDDLE];
    const int heel = board->heel_fret, before = heel > 0 ? heel - 1 : heel;
    const bool entered = record_entered_one(record, FIELD_HEEL_FRET).given;

    beam->doubt = (struct neck_doubt){
        .board_modulus_entered = record_entered_one(record, FIELD_BOARD_MODULUS).given,
        .shaft_modulus_entered = record_entered_one(record, FIELD_NECK_MODULUS).given,
        .heel_u_mm = (x[heel] - x[before]) *
                     assumption_get(entered ? ASSUME_HEEL_FRET_ENTERED : ASSUME_HEEL_FRET)->u,
        .pull_share_u = assumption_get(ASSUME_PULL)->u,
    };
}

static void bend_neck(const struct beam *beam, enum neck_slot slot, bool loaded,
                      struct figures *figures)
{
    const struct beam_figures *ids = &beam_figures[slot];
    struct section_stiffness first, heel;
    double relief_mm;

    if (!beam->has_slot[slot])
        return;
    const struct neck_beam_u u = neck_doubt_find(&beam->shape, slot, &beam->doubt);
    if (neck_beam_find_section(&beam->shape, slot, beam->shape.first_fret_mm, &first) == STATUS_OK)
        figures_set_u(figures, ids->first, 0, first.stiffness_nmm2, u.first_nmm2);
    if (neck_beam_find_section(&beam->shape, slot, beam->shape.heel_mm, &heel) == STATUS_OK)
        figures_set_u(figures, ids->heel, 0, heel.stiffness_nmm2, u.heel_nmm2);
    if (loaded && neck_beam_find_relief(&beam->shape, slot, &relief_mm) == STATUS_OK)
        figures_set_u(figures, ids->relief, 0, relief_mm, u.relief_mm);
}

/* What the pull alone would make of the neck, less what is read: the rod holds the rest, and the
 * neck's own bow is in it. */
static void derive_hold(const struct setup *setup, struct figures *figures)
{
    const struct figure *slack = &figures->at[FIGURE_RELIEF_PREDICTED][0];
    const struct figure *read = &figures->at[FIGURE_RELIEF][0];
    const double bow_u_mm = 2 * assumption_get(ASSUME_OWN_BOW)->u;

    if (setup_rod_turns(setup) && slack->known != KNOWN_ABSENT && read->known != KNOWN_ABSENT)
        figures_set_u(figures, FIGURE_ROD_HOLDS, 0, slack->value - read->value,
                      hypot(hypot(slack->u, read->u), bow_u_mm));
}

static void derive_beam(const struct record *record, const struct setup *setup,
                        const struct string_lines *lines, struct figures *figures)
{
    struct beam beam = {.has_slot = {false}};
    const bool has_crown = !outfit_asks(&setup->outfit, FIELD_CROWN_HEIGHT, 0) ||
                           record_entered_one(record, FIELD_CROWN_HEIGHT).given;

    if (!setup->board.has_curve)
        return;
    read_shape(record, setup, &beam);
    read_slot(record, setup, &beam);
    const struct maybe total_n = figures_get(figures, FIGURE_TENSION_TOTAL, 0);
    const bool loaded =
        has_crown && setup->board.has_relief && total_n.given && take_strings(setup, lines, &beam);

    beam.shape.tension_total_n = maybe_or(total_n, 0);
    doubt_beam(record, &setup->board, &beam);
    for (int slot = NECK_SLOT_FOUND; slot <= NECK_SLOT_RECUT; slot++)
        bend_neck(&beam, (enum neck_slot)slot, loaded, figures);
    derive_hold(setup, figures);
}

static void derive_wood(const struct record *record, enum field_id cut_field, enum figure_id figure,
                        enum finding_id thin, struct figures *figures, struct findings *findings)
{
    const struct maybe first = record_entered_one(record, FIELD_SHAFT_FIRST);
    const struct maybe heel = record_entered_one(record, FIELD_SHAFT_HEEL);
    const struct maybe cut = record_entered_one(record, cut_field);
    double left_mm;

    if (!first.given || !heel.given || !cut.given ||
        neck_beam_find_wood_left(first.value, heel.value, cut.value, &left_mm) != STATUS_OK)
        return;
    figures_set(figures, figure, 0, left_mm, KNOWN_READ);
    if (left_mm < NECK_BEAM_LEAST_WOOD_MM)
        findings_add(findings, thin, 0);
}

static void derive_stop(const struct record *record, struct figures *figures)
{
    const struct maybe height = record_entered_one(record, FIELD_ROD_HEIGHT);
    const struct maybe cap = record_entered_one(record, FIELD_ROD_CAP);
    const struct maybe layers = record_entered_one(record, FIELD_TAPE_LAYERS);
    const struct maybe thickness = record_entered_one(record, FIELD_TAPE_THICKNESS);
    double stop_mm;

    if (height.given && cap.given && layers.given && thickness.given &&
        neck_beam_find_stop_depth(height.value, cap.value, layers.value, thickness.value,
                                  &stop_mm) == STATUS_OK)
        figures_set(figures, FIGURE_STOP_DEPTH, 0, stop_mm, KNOWN_READ);
}

static void derive_tenon(const struct record *record, struct figures *figures,
                         struct findings *findings)
{
    const struct neck_tenon tenon = {
        .edge_mm = value_of(record, FIELD_TENON_EDGE),
        .thickness_mm = value_of(record, FIELD_TENON_THICKNESS),
        .shear_strength_mpa = maybe_or(neck_facts_wood(record, FIELD_SHEAR_STRENGTH), 0),
        .bolt_diameter_mm = value_of(record, FIELD_BOLT_DIAMETER),
        .bolt_torque_nm = value_of(record, FIELD_BOLT_TORQUE),
    };
    double safety;

    if (neck_tenon_find_safety(&tenon, &safety) != STATUS_OK)
        return;
    figures_set(figures, FIGURE_TENON_SAFETY, 0, safety, KNOWN_READ);
    if (neck_tenon_judge(safety) == NECK_RISK_FAILS)
        findings_add(findings, FINDING_TENON_WEAK, 0);
    else if (neck_tenon_judge(safety) == NECK_RISK_HIGH)
        findings_add(findings, FINDING_TENON_RISK, 0);
}

void derive_neck(const struct record *record, const struct setup *setup,
                 const struct string_lines *lines, struct figures *figures,
                 struct findings *findings)
{
    derive_beam(record, setup, lines, figures);
    derive_wood(record, FIELD_SLOT_DEPTH, FIGURE_WOOD_LEFT, FINDING_WOOD_THIN, figures, findings);
    derive_wood(record, FIELD_RECUT_DEPTH, FIGURE_WOOD_LEFT_RECUT, FINDING_WOOD_THIN_RECUT, figures,
                findings);
    derive_stop(record, figures);
    derive_tenon(record, figures, findings);
}
