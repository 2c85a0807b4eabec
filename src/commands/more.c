/* SPDX-License-Identifier: MIT */
#include "commands/more.h"

#include <math.h>

#include "model/survey/next_check.h"
#include "model/derive/derive_calibration.h"
#include "model/survey/survey_buzz.h"
#include "model/survey/survey_headroom.h"
#include "model/survey/survey_layout.h"
#include "model/survey/survey_levelling.h"
#include "model/survey/survey_movement.h"
#include "model/survey/survey_passes.h"
#include "model/survey/survey_tight.h"
#include "model/setup/survey_rod.h"

static void print_plan_frets(const struct survey_levelling *survey, enum levelling_plan plan,
                             struct printer *printer)
{
    const struct levelling_fret *fret = survey->fret[plan];
    uint64_t too_low = 0;

    for (int n = 1; n <= survey->frets; n++)
        if (fret[n].take_mm > 0)
            printer_number_at(printer, "take", n, "_mm", fret[n].take_mm);
    for (int n = 1; n <= survey->frets; n++)
        if (fret[n].crown_left_mm.given)
            printer_number_at(printer, "crown_left", n, "_mm", fret[n].crown_left_mm.value);
    for (int n = 1; n <= survey->frets; n++)
        if (fret[n].too_low)
            too_low |= UINT64_C(1) << n;
    printer_frets(printer, "too_low", too_low);
}

static void print_plan(const struct survey_levelling *survey, enum levelling_plan plan,
                       const char *name, struct printer *printer)
{
    const struct levelling_summary *summary = &survey->summary[plan];

    printer_begin(printer, name, 0, 0);
    print_plan_frets(survey, plan, printer);
    printer_number(printer, "most_taken_mm", summary->most_taken_mm);
    if (summary->most_taken_fret > 0)
        printer_number(printer, "most_taken_fret", summary->most_taken_fret);
    if (survey->take_u_mm[plan] > 0)
        printer_number(printer, "take_u_mm", survey->take_u_mm[plan]);
    if (summary->least_left_fret > 0) {
        printer_number(printer, "least_crown_left_mm", summary->least_left_mm);
        printer_number(printer, "least_crown_left_fret", summary->least_left_fret);
    }
    printer_number(printer, "least_crown_mm", survey->least_crown_mm);
}

static void print_levelling(struct place place, const struct derived *derived,
                            struct printer *printer)
{
    struct findings findings = {.count = 0};
    struct survey_levelling survey;

    survey_levelling(place, &derived->setup, &derived->lines, &survey, &findings);
    printer_findings(printer, &findings);
    if (!survey.known)
        return;
    print_plan(&survey, LEVELLING_SPOTS, "levelling.spots", printer);
    print_plan(&survey, LEVELLING_FULL, "levelling.full", printer);
}

static void print_high_fret(const struct survey_buzz *buzz, struct printer *printer)
{
    const struct clearance_high_fret *high = &buzz->high;

    printer_number(printer, "high_fret", high->fret);
    printer_number(printer, "least_mm", high->least_mm);
    if (high->bounded)
        printer_number(printer, "most_mm", high->most_mm);
    printer_number(printer, "least_note", high->least_note);
    if (high->bounded)
        printer_number(printer, "most_note", high->most_note);
    printer_number(printer, "misfit", buzz->misfit);
    printer_frets(printer, "unexplained", buzz->unexplained);
    printer_frets(printer, "against", buzz->against);
    printer_number(printer, "touch_mm", buzz->touch_mm);
    for (int n = 0; n < high->fret; n++)
        if ((buzz->buzzing | buzz->clean) >> n & 1)
            printer_number_at(printer, "margin", n, "_mm", buzz->margin_mm[n]);
}

/* How far the headrooms of [clearance.i] are to be believed. */
static void print_headroom(const struct survey_headroom *doubt, const struct derived *derived,
                           struct printer *printer)
{
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        printer_begin(printer, "headroom", s, 0);
        for (int n = 0; n < derived->setup.board.frets; n++)
            if (doubt->u_mm[s][n].given)
                printer_number_at(printer, "fret", n, "_u_mm", doubt->u_mm[s][n].value);
    }
}

/* How hard it is played, in medium touches of the kind, and the notes that buzz first. */
static void print_touch(struct place place, const struct derived *derived, struct printer *printer)
{
    const struct touch *touch = &derived->touch;
    struct findings findings = {.count = 0};
    struct survey_levelling levelling;
    struct survey_tight tight;
    struct survey_headroom doubt;

    survey_headroom(place, derived, &doubt);
    print_headroom(&doubt, derived, printer);
    survey_levelling(place, &derived->setup, &derived->lines, &levelling, &findings);
    survey_tight(place, derived, &levelling, &tight);
    if (tight.count == 0)
        return;
    printer_begin(printer, "touch", 0, 0);
    printer_number(printer, "share", touch->share);
    printer_entered(printer, "heard_least", touch->least);
    printer_entered(printer, "heard_most", touch->most);
    for (int i = 0; i < tight.count; i++) {
        printer_begin(printer, "tightest", i + 1, 0);
        printer_number(printer, "string", tight.note[i].string);
        printer_number(printer, "note", tight.note[i].note);
        printer_number(printer, "at", tight.note[i].at);
        printer_number(printer, "touches", tight.note[i].share);
        printer_entered(printer, "touches_u",
                        doubt.u_touches[tight.note[i].string][tight.note[i].note]);
    }
}

static void print_buzz(struct place place, const struct derived *derived, struct printer *printer)
{
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        struct survey_buzz buzz;

        survey_buzz(place, derived, s, &buzz);
        if (!buzz.heard)
            continue;
        printer_begin(printer, "buzz", s, 0);
        printer_frets(printer, "buzzing", buzz.buzzing);
        printer_frets(printer, "clean", buzz.clean);
        if (buzz.explained)
            print_high_fret(&buzz, printer);
    }
}

static void print_frets(const struct layout_fret *fret, int frets, struct printer *printer)
{
    for (int n = 1; n <= frets; n++)
        printer_number_at(printer, "fret", n, "_mm", fret[n].from_nut_mm);
    for (int n = 1; n <= frets; n++)
        printer_number_at(printer, "space", n, "_mm", fret[n].from_previous_mm);
    for (int n = 1; n <= frets; n++)
        if (survey_layout_has_dot(n))
            printer_number_at(printer, "dot", n, "_mm", fret[n].dot_mm);
}

static void print_ends(const struct string_layout *string, struct printer *printer)
{
    printer_entered(printer, "nut_centre_mm", string->nut_centre_mm);
    printer_entered(printer, "saddle_centre_mm", string->saddle_centre_mm);
    printer_number(printer, "contact_mm", string->contact_mm);
    printer_entered(printer, "contact_predicted_mm", string->contact_predicted_mm);
    printer_entered(printer, "contact_best_mm", string->contact_best_mm);
    printer_entered(printer, "nut_front_best_mm", string->nut_front_best_mm);
    printer_entered(printer, "contact_read_mm", string->contact_read_mm);
    printer_entered(printer, "contact_read_u_mm", string->contact_read_u_mm);
    printer_entered(printer, "contact_fit_mm", string->contact_fit_mm);
    printer_entered(printer, "nut_front_fit_mm", string->nut_front_fit_mm);
}

static void print_layout(const struct record *record, const struct derived *derived,
                         struct printer *printer)
{
    struct survey_layout layout;

    survey_layout(record, derived, &layout);
    if (!layout.known)
        return;
    printer_begin(printer, "layout", 0, 0);
    print_frets(layout.middle, layout.frets, printer);
    for (int s = 1; s <= layout.strings; s++) {
        printer_begin(printer, "layout", s, 0);
        print_ends(&layout.string[s], printer);
        if (layout.multi_scale)
            print_frets(layout.string[s].fret, layout.frets, printer);
    }
}

/* "NAME_mm" and "NAME_u_mm". */
static void print_with_u(struct printer *printer, const char *name, struct maybe mm,
                         struct maybe u_mm)
{
    char key_memory[64], u_memory[64];
    struct strbuf key = STRBUF(key_memory), key_u = STRBUF(u_memory);

    strbuf_addf(&key, "%s_mm", name);
    strbuf_addf(&key_u, "%s_u_mm", name);
    printer_entered(printer, key_memory, mm);
    printer_entered(printer, u_memory, u_mm);
}

static void print_movement(const struct record *record, struct printer *printer)
{
    static const char *const names[MOVEMENT_PARTS_][MOVEMENT_PLACES_][WOOD_GRAIN_COUNT_] = {
        [MOVEMENT_BOARD] = {[MOVEMENT_AT_NUT] = {"board_nut_radial", "board_nut_tangential"},
                            [MOVEMENT_AT_JOIN] = {"board_join_radial", "board_join_tangential"}},
        [MOVEMENT_NECK] = {[MOVEMENT_AT_NUT] = {"neck_nut_radial", "neck_nut_tangential"},
                           [MOVEMENT_AT_JOIN] = {"neck_join_radial", "neck_join_tangential"}},
    };
    struct survey_movement movement = {.visit = 0};

    while (survey_movement_next(record, &movement)) {
        printer_begin(printer, "movement", movement.visit, 0);
        printer_number(printer, "emc_pct", movement.emc_pct);
        if (movement.since == 0)
            continue;
        printer_number(printer, "since_visit", movement.since);
        printer_number(printer, "emc_change_pct", movement.emc_change_pct);
        for (int part = 0; part < MOVEMENT_PARTS_; part++)
            for (int place = 0; place < MOVEMENT_PLACES_; place++)
                for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++)
                    print_with_u(printer, names[part][place][grain],
                                 movement.mm[part][place][grain],
                                 movement.u_mm[part][place][grain]);
    }
}

/* What it holds of the strings' pull, in turns. */
static void print_held(const struct survey_rod *rod, const struct derived *derived,
                       struct printer *printer)
{
    const struct figure *holds = &derived->figures.at[FIGURE_ROD_HOLDS][0];
    double turns, u;

    if (holds->known == KNOWN_ABSENT ||
        !survey_rod_turns_held(rod, holds->value, holds->u, &turns, &u))
        return;
    printer_number(printer, "holds_turns", turns);
    printer_number(printer, "holds_turns_u", u);
}

static void print_rod(const struct record *record, const struct derived *derived,
                      struct printer *printer)
{
    struct findings findings = {.count = 0};
    struct survey_rod rod;

    survey_rod(place_of(record, 0, 0), &rod, &findings);
    printer_findings(printer, &findings);
    if (!rod.known)
        return;
    printer_begin(printer, "rod", 0, 0);
    printer_number(printer, "steps", rod.fit.count);
    printer_number(printer, "relief_per_turn_mm", rod.fit.per_turn_mm);
    printer_number(printer, "relief_per_turn_u_mm", rod.fit.per_turn_u_mm);
    printer_number(printer, "left_rms_mm", rod.fit.left_mm);
    printer_text(printer, "answer", survey_rod_answer_name(rod.answer));
    printer_entered(printer, "turns_to_target", rod.turns_to_target);
    printer_entered(printer, "turns_to_target_u", rod.turns_to_target_u);
    printer_entered(printer, "next_turn", rod.next_turn);
    print_held(&rod, derived, printer);
}

static void print_next_check(const struct record *record, struct printer *printer)
{
    static const char *const reasons[] = {
        [NEXT_CHECK_SHOP_UNKNOWN] = "shop-air-unknown",
        [NEXT_CHECK_HOME_UNKNOWN] = "home-air-unknown",
        [NEXT_CHECK_SETTLES] = "wood-settles",
        [NEXT_CHECK_LIKE_SHOP] = "like-the-shop",
        [NEXT_CHECK_STEADY] = "relief-steady",
    };
    struct next_check check;

    if (record_last_visit(record) == 0)
        return;
    next_check_find(record, record_last_visit(record), &check);
    printer_begin(printer, "next-check", 0, 0);
    printer_text(printer, "reason", reasons[check.reason]);
    printer_entered(printer, "shop_emc_pct", check.shop_pct);
    if (check.by_home)
        printer_entered(printer, "home_emc_pct", check.far_pct);
    if (!check.known)
        return;
    printer_number(printer, "days", check.days);
    printer_number(printer, "least_days", check.least_days);
    printer_number(printer, "most_days", check.most_days);
}

static void print_action(const struct pass_action *action, int string, struct printer *printer)
{
    char memory[32];
    struct strbuf within = STRBUF(memory);

    printer_number_at(printer, "predicted", string, "_mm", action->predicted_mm);
    printer_number_at(printer, "predicted_u", string, "_mm", action->predicted_u_mm);
    printer_number_at(printer, "read", string, "_mm", action->read_mm);
    printer_number_at(printer, "read_u", string, "_mm", action->read_u_mm);
    printer_number_at(printer, "off", string, "_mm", action->off.off_mm);
    strbuf_addf(&within, "within.%d", string);
    printer_text(printer, memory, action->off.within ? "yes" : "no");
    if (action->at_relief_mm.given)
        printer_number_at(printer, "predicted_at_relief", string, "_mm",
                          action->at_relief_mm.value);
}

static void print_passes(const struct record *record, struct printer *printer)
{
    struct survey_pass pass = {.visit = 0};

    while (survey_pass_next(record, &pass)) {
        bool any = false;

        printer_begin(printer, "passes", pass.visit, pass.pass);
        for (int s = 1; s <= pass.strings; s++) {
            if (!pass.action[s].known)
                continue;
            if (!any) {
                printer_number(printer, "from_pass", pass.before);
                printer_text(printer, "prediction", pass.after_rod ? "after-rod" : "after-all");
            }
            any = true;
            print_action(&pass.action[s], s, printer);
        }
    }
}

static const char *calibrated_word(const struct calibrated *number)
{
    if (!number->fitted)
        return "kept";
    if (number->at_limit)
        return "at-limit";
    return number->pinned ? "pinned" : "loose";
}

static void print_calibration(struct place place, const struct derived *derived,
                              struct printer *printer)
{
    for (int s = 1; s <= derived->setup.board.strings; s++) {
        struct intonation_calibration fit;

        if (derive_calibration(place, &derived->setup, &derived->string[s], &derived->lines, s,
                               &fit) != STATUS_OK)
            continue;
        printer_begin(printer, "calibration", s, 0);
        printer_number(printer, "readings", fit.readings);
        printer_number(printer, "press_depth_mm", fit.press_depth_mm.value);
        if (fit.press_depth_mm.fitted && isfinite(fit.press_depth_mm.expanded_u))
            printer_number(printer, "press_depth_u_mm", fit.press_depth_mm.expanded_u);
        printer_text(printer, "press_depth_fit", calibrated_word(&fit.press_depth_mm));
        printer_number(printer, "clamped_ends", fit.clamped_ends.value);
        if (fit.clamped_ends.fitted && isfinite(fit.clamped_ends.expanded_u))
            printer_number(printer, "clamped_ends_u", fit.clamped_ends.expanded_u);
        printer_text(printer, "clamped_ends_fit", calibrated_word(&fit.clamped_ends));
        if (fit.press_depth_mm.fitted && fit.clamped_ends.fitted)
            printer_number(printer, "correlation", fit.correlation);
        printer_number(printer, "cents_rms_before", fit.cents_rms_before);
        printer_number(printer, "cents_rms_after", fit.cents_rms_after);
    }
}

void more_print(const struct record *record, const struct derived *derived, struct printer *printer)
{
    const struct place place = place_current(record);

    print_levelling(place, derived, printer);
    print_touch(place, derived, printer);
    print_buzz(place, derived, printer);
    print_layout(record, derived, printer);
    print_movement(record, printer);
    print_next_check(record, printer);
    print_rod(record, derived, printer);
    print_passes(record, printer);
    print_calibration(place, derived, printer);
}
