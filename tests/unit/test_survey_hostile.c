/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "model/survey/survey_buzz.h"
#include "model/derive/derive_calibration.h"
#include "model/survey/survey_layout.h"
#include "model/survey/survey_levelling.h"
#include "model/survey/survey_movement.h"
#include "model/survey/survey_passes.h"
#include "model/setup/survey_rod.h"
#include "model/survey/survey_what_if.h"
#include "near.h"
#include "seeded.h"
#include "survey_record.h"

/*
 * Records with any readings missing and any others at the limits of what a profile may hold:
 * nothing crashes, and whatever is called known is a number.
 */

static const char more[] = "board wood = ebony\n"
                           "board width_nut = 44 mm\n"
                           "board width_join = 55 mm\n"
                           "board thickness = 6 mm\n"
                           "board crown_height = 1.1 mm\n"
                           "board modulus = 13000\n"
                           "nut margin_bass = 3.5 mm\n"
                           "nut margin_treble = 3 mm\n"
                           "nut spread = equal-gaps\n"
                           "bridge spread = 54 mm\n"
                           "neck wood = mahogany\n"
                           "neck shaft_first = 14 mm\n"
                           "neck shaft_heel = 16 mm\n"
                           "neck modulus = 10300\n"
                           "visit.1 humidity = 41\n"
                           "visit.1 temperature = 21 C\n"
                           "visit.1.pass.1 rod_turn = 0.1\n"
                           "visit.1.pass.2 rod_turn = 0.25\n"
                           "visit.1.pass.2 relief = .010 in\n"
                           "visit.1.pass.2 action.1 = 5.5/64 in\n"
                           "visit.1.pass.2 action.6 = 7.5/64 in\n"
                           "visit.1.pass.2 nut_gap.6 = .029 in\n"
                           "visit.2 humidity = 65\n"
                           "visit.2 temperature = 25 C\n"
                           "visit.2.pass.1 relief = .010 in\n"
                           "visit.2.pass.1 relief.4 = .008 in\n"
                           "visit.2.pass.1 nut_gap.1 = .020 in\n"
                           "visit.2.pass.1 nut_gap.6 = .030 in\n"
                           "visit.2.pass.1 action.1 = 5/64 in\n"
                           "visit.2.pass.1 action.6 = 7/64 in\n"
                           "visit.2.pass.1 spot.7 = .002 in\n"
                           "visit.2.pass.1 spot.14 = -.001 in\n"
                           "visit.2.pass.1 crown.7 = 0.62 mm\n"
                           "visit.2.pass.1 cents.1.3 = 3\n"
                           "visit.2.pass.1 cents.1.7 = 3.5\n"
                           "visit.2.pass.1 cents.1.12 = 4\n"
                           "visit.2.pass.1 buzz.6 = 3 4\n"
                           "visit.2.pass.1 clean.6 = 0 8 9\n"
                           "visit.2.pass.2 rod_turn = -0.25\n"
                           "visit.2.pass.2 relief = .012 in\n"
                           "visit.2.pass.2 nut_gap.1 = .020 in\n"
                           "visit.2.pass.2 action.1 = 5/64 in\n"
                           "visit.2.pass.2 spot.9 = .002 in\n"
                           "visit.2.pass.2 buzz.1 = 0 5\n"
                           "visit.2.pass.2 cents.6.2 = 3\n"
                           "visit.2.pass.2 cents.6.5 = 3\n"
                           "visit.2.pass.2 cents.6.9 = 3\n";

static void check_given(struct maybe number)
{
    if (number.given)
        assert_true(isfinite(number.value));
}

static void check_levelling(struct place place, const struct derived *derived)
{
    struct findings findings = {.count = 0};
    struct survey_levelling levelling;

    survey_levelling(place, &derived->setup, &derived->lines, &levelling, &findings);
    for (int plan = 0; levelling.known && plan < LEVELLING_PLANS; plan++)
        for (int n = 1; n <= levelling.frets; n++) {
            const struct levelling_fret *fret = &levelling.fret[plan][n];

            assert_true(isfinite(fret->take_mm) && fret->take_mm >= 0);
            assert_true(isfinite(fret->crown_left_mm.value));
        }
}

static void check_buzz(struct place place, const struct derived *derived, int string)
{
    const int frets = derived->setup.board.frets;
    struct survey_buzz buzz;

    survey_buzz(place, derived, string, &buzz);
    assert_true((buzz.buzzing | buzz.clean) >> frets >> 1 == 0);
    assert_true((buzz.buzzing & buzz.clean) == 0);
    if (!buzz.explained)
        return;
    assert_true(buzz.high.fret >= 1 && buzz.high.fret <= frets);
    assert_true(isfinite(buzz.high.least_mm));
    for (int n = 0; n < buzz.high.fret; n++)
        assert_true(isfinite(buzz.margin_mm[n]));
}

static void check_layout(const struct record *record, const struct derived *derived)
{
    struct survey_layout layout;

    survey_layout(record, derived, &layout);
    for (int s = 1; layout.known && s <= layout.strings; s++) {
        const struct string_layout *string = &layout.string[s];

        assert_true(isfinite(string->contact_mm));
        check_given(string->nut_centre_mm);
        check_given(string->nut_line_mm);
        check_given(string->saddle_centre_mm);
        check_given(string->contact_predicted_mm);
        check_given(string->contact_best_mm);
        check_given(string->nut_front_best_mm);
        check_given(string->contact_read_mm);
        check_given(string->contact_fit_mm);
        check_given(string->nut_front_fit_mm);
    }
}

static void check_history(const struct record *record)
{
    struct survey_movement movement = {.visit = 0};
    struct findings findings = {.count = 0};
    struct survey_pass pass;
    struct survey_rod rod;

    while (survey_movement_next(record, &movement)) {
        assert_true(isfinite(movement.emc_pct) && isfinite(movement.emc_change_pct));
        for (int part = 0; part < MOVEMENT_PARTS_; part++)
            for (int place = 0; place < MOVEMENT_PLACES_; place++)
                for (int grain = 0; grain < WOOD_GRAIN_COUNT_; grain++)
                    check_given(movement.mm[part][place][grain]);
    }
    survey_rod(place_of(record, 0, 0), &rod, &findings);
    if (rod.known)
        assert_true(isfinite(rod.fit.per_turn_mm));
    check_given(rod.turns_to_target);
    check_given(rod.turns_to_target_u);
    check_given(rod.next_turn);
    memset(&pass, 0, sizeof pass);
    while (survey_pass_next(record, &pass))
        for (int s = 1; s <= pass.strings; s++) {
            const struct pass_action *action = &pass.action[s];

            if (action->known)
                assert_true(isfinite(action->predicted_mm) && isfinite(action->off.off_mm) &&
                            isfinite(action->predicted_u_mm) && action->predicted_u_mm >= 0);
            check_given(action->at_relief_mm);
        }
}

static void check_what_if(const struct record *record, const struct derived *derived,
                          struct seeded *seeded)
{
    struct what_if_change change = {.shift_semitones = seeded_whole(seeded, -24, 24)};
    struct findings findings = {.count = 0};
    struct survey_what_if what_if;

    change.has_set = string_set_find("steel-light", &change.set) == STATUS_OK && seeded->state & 1;
    if (survey_what_if(record, derived, &change, &what_if, &findings) != STATUS_OK)
        return;
    for (int s = 1; s <= what_if.strings; s++) {
        check_given(what_if.string[s].before_n);
        check_given(what_if.string[s].after_n);
        check_given(what_if.string[s].share_of_total);
        check_given(what_if.string[s].stress_share);
    }
    check_given(what_if.total_before_n);
    check_given(what_if.total_after_n);
    check_given(what_if.relief_predicted_after_mm);
    check_given(what_if.pull.relief_mm);
    check_given(what_if.pull.relief_u_mm);
    for (int s = 1; s <= what_if.strings; s++) {
        check_given(what_if.pull.action_mm[s]);
        check_given(what_if.pull.action_u_mm[s]);
    }
}

static void check_all(const struct record *record, struct seeded *seeded)
{
    struct derived derived;
    const struct place place = place_current(record);

    derive_current(record, &derived);
    check_levelling(place, &derived);
    check_layout(record, &derived);
    check_history(record);
    check_what_if(record, &derived, seeded);
    for (int s = 1; s <= derived.setup.board.strings; s++) {
        struct intonation_calibration fit;

        check_buzz(place, &derived, s);
        if (derive_calibration(place, &derived.setup, &derived.string[s], &derived.lines, s,
                               &fit) == STATUS_OK)
            assert_true(isfinite(fit.press_depth_mm.value) && isfinite(fit.clamped_ends.value) &&
                        isfinite(fit.cents_rms_after));
    }
}

/* Any number that the field may hold, often the very least or most of it. */
static double pick(struct seeded *seeded, const struct field *field)
{
    switch (seeded_whole(seeded, 0, 3)) {
    case 0:
        return field->possible_min;
    case 1:
        return field->possible_max;
    default:
        return seeded_between(seeded, field->possible_min, field->possible_max);
    }
}

/* Straight into the values: what field_read lets through is what formulas meet. */
static void spoil(struct record *record, struct seeded *seeded)
{
    for (int i = seeded_whole(seeded, 0, 12); i > 0 && record->count > 0; i--) {
        const int at = seeded_whole(seeded, 0, (int)record->count - 1);
        struct reading *reading = &record->readings[at];
        const struct field *field = field_get(reading->key.field);

        if (field->kind == KIND_NUMBER && seeded_whole(seeded, 0, 1))
            reading->value.value = pick(seeded, field);
        else if (field->kind == KIND_COUNT && seeded_whole(seeded, 0, 1))
            reading->value.value = floor(pick(seeded, field));
        else
            (void)record_remove(record, &(struct reading_key){.field = reading->key.field,
                                                              .visit = reading->key.visit,
                                                              .part = reading->key.part,
                                                              .string = reading->key.string,
                                                              .fret = reading->key.fret});
    }
}

static void test_spoilt_records(void **state)
{
    struct seeded seeded = seeded_start("survey_hostile");
    struct record whole;

    (void)state;
    survey_record_build(&whole, more);
    check_all(&whole, &seeded);
    for (int round = 0; round < 400; round++) {
        struct record record;

        assert_int_equal(record_copy(&whole, &record), STATUS_OK);
        spoil(&record, &seeded);
        check_all(&record, &seeded);
        record_done(&record);
    }
    record_done(&whole);
}

static void test_nothing_at_all(void **state)
{
    struct seeded seeded = seeded_start("survey_hostile");
    struct record record;

    (void)state;
    build_record(&record, "");
    check_all(&record, &seeded);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_spoilt_records),
        cmocka_unit_test(test_nothing_at_all),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
