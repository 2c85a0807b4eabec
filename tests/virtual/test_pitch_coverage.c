/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "course_record.h"
#include "model/derive/derive_pitch_u.h"
#include "near.h"
#include "pitch_draw.h"
#include "seeded.h"
#include "store/profile/preset.h"
#include "store/profile/profile.h"
#include "survey_record.h"

/*
 * How often the truth lies within the ± of a predicted setback or note: the truth is the exact
 * model with every assumption drawn from what pitch_assumption_table.h says of it and every gauge
 * reading drawn within its step (pitch_draw.h).
 */

enum { DRAWS = 1500 };

enum watched { SETBACK, BEST, NUT, CENTS_1, CENTS_5, CENTS_12, WATCHED };

static const int outcome_of[WATCHED] = {
    OUTCOME_SETBACK,  OUTCOME_SETBACK_BEST, OUTCOME_NUT_BEST,
    OUTCOME_OPEN + 1, OUTCOME_OPEN + 5,     OUTCOME_OPEN + 12,
};

static int path_count;
static char **paths;

struct tally {
    int within[WATCHED], within_half[WATCHED], draws[WATCHED];
};

static double shown_u(const struct derived *derived, int string, enum watched watched,
                      double *ret_value)
{
    static const enum figure_id ids[] = {FIGURE_SETBACK_PREDICTED, FIGURE_SETBACK_BEST,
                                         FIGURE_NUT_ADVANCE_BEST};

    if (watched < CENTS_1) {
        const struct figure *figure = &derived->figures.at[ids[watched]][string];

        *ret_value = figure->known == KNOWN_ABSENT ? (double)NAN : figure->value;
        return figure->u;
    }
    const int fret = derived->setup.board.start_fret[string] + outcome_of[watched] - OUTCOME_OPEN;

    *ret_value = maybe_or(derived->pitch[string].cents[fret], (double)NAN);
    return derived->pitch[string].cents_u[fret];
}

static void count_draw(const struct derived *derived, int string,
                       const struct pitch_outcomes *truth, struct tally *tally)
{
    for (int w = 0; w < WATCHED; w++) {
        double value;
        const double u = shown_u(derived, string, (enum watched)w, &value);
        const double off = fabs(truth->at[outcome_of[w]] - value);

        if (isnan(value))
            continue;
        tally->draws[w]++;
        tally->within[w] += off <= u;
        tally->within_half[w] += off <= u / 2;
    }
}

/* `know`, if not NULL, puts in what is known to be so whatever the program assumes. */
static struct tally watch(struct seeded *seed, const struct record *record,
                          void (*know)(struct assumed *assumed))
{
    struct tally tally = {.draws = {0}};
    struct pitch_instrument made = {.record = record};
    struct derived derived;
    struct figures unused;
    const struct place place = place_current(record);

    derive_current(record, &derived);
    derive_predicted_u(place, &derived);
    made.derived = &derived;
    made.flat = derived.setup;
    board_drop_setbacks(&made.flat.board);
    moves_solve(&made.flat, NULL, &unused, &made.choice, &made.flat_lines);
    for (int s = 1; s <= derived.setup.board.strings; s++) {
        struct pitch_outcomes truth;
        struct assumed assumed;

        derive_assumed(place, &derived.setup, &made.choice, &derived.string[s], &derived.lines, s,
                       &assumed);
        if (know)
            know(&assumed);
        for (int i = 0; i < DRAWS; i++)
            if (pitch_draw_truth(seed, &made, &assumed, s, &truth))
                count_draw(&derived, s, &truth, &tally);
    }
    return tally;
}

/* Prints a row of the table; false where a share is farther from 95 % than `off`, or where half the
 * ± would have done as well. */
static bool print_row(const char *name, const struct tally *tally, double off)
{
    bool good = true;

    fprintf(stderr, "%-28s", name);
    for (int w = 0; w < WATCHED; w++) {
        const double share = 100.0 * tally->within[w] / tally->draws[w];
        const double half = 100.0 * tally->within_half[w] / tally->draws[w];

        fprintf(stderr, " %6.1f", share);
        good = good && tally->draws[w] > 0 && fabs(share - 95) <= off && half < 85;
    }
    fprintf(stderr, "%s\n", good ? "" : "  <-");
    return good;
}

/* One instrument's draws scatter by up to 1 % (three standard deviations of the share). */
static bool check(struct seeded *seed, const char *name, const struct record *record,
                  struct tally *all)
{
    const struct tally tally = watch(seed, record, NULL);

    for (int w = 0; w < WATCHED; w++) {
        all->draws[w] += tally.draws[w];
        all->within[w] += tally.within[w];
        all->within_half[w] += tally.within_half[w];
    }
    return print_row(name, &tally, 3);
}

static bool check_all(const struct tally *all)
{
    return print_row("all of these", all, 2);
}

static void print_heading(void)
{
    fprintf(stderr, "%-28s %6s %6s %6s %6s %6s %6s   %% within the +-\n", "instrument", "setb.",
            "best", "nut", "c. 1", "c. 5", "c. 12");
}

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

static void test_profiles(void **state)
{
    struct seeded seed = seeded_start("pitch coverage");
    struct tally all = {.draws = {0}};
    bool good = path_count > 0;

    (void)state;
    print_heading();
    for (int i = 0; i < path_count; i++) {
        struct problems problems;
        struct profile *profile;

        problems_init(&problems);
        assert_int_equal(profile_open(paths[i], PROFILE_TO_READ, &problems, &profile), STATUS_OK);
        good = check(&seed, base_name(paths[i]), profile_record(profile), &all) && good;
        profile_close(profile);
        problems_done(&problems);
    }
    assert_true(check_all(&all) && good);
}

/* Measurements for a starting point: heights that are right on some strings and high on others. */
static void add_pass(struct record *record, const struct derived *derived)
{
    const struct setup *setup = &derived->setup;
    const int strings = setup->board.strings;

    build_record_add(record, "visit.1 date = 2026-03-02\nvisit.1.pass.1 relief = .010 in");
    for (int s = 1; s <= strings; s++) {
        const double high = s % 3 == 0 ? 0 : 0.2;
        const struct maybe action = setup_target_at(
            &setup->action_target_bass_mm, &setup->action_target_treble_mm, &setup->outfit, s);
        const struct maybe gap = setup_target_at(&setup->gap_target_bass_mm,
                                                 &setup->gap_target_treble_mm, &setup->outfit, s);

        if (outfit_asks(&setup->outfit, FIELD_ACTION, s))
            build_record_put_mm(record, reading_key_pass_at(FIELD_ACTION, 1, 1, s, 0),
                                assert_given(action) + 2 * high);
        if (outfit_asks(&setup->outfit, FIELD_NUT_GAP, s))
            build_record_put_mm(record, reading_key_pass_at(FIELD_NUT_GAP, 1, 1, s, 0),
                                assert_given(gap) + high / 2);
    }
}

static void test_presets(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, presets");
    struct tally all = {.draws = {0}};
    bool good = true;

    (void)state;
    print_heading();
    for (int i = 0; preset_get(i); i++) {
        struct record record;
        struct derived derived;

        assert_int_equal(preset_record(preset_get(i), &record), STATUS_OK);
        derive_current(&record, &derived);
        if (derived.string[1].modulus_mpa > 0 && !derived.setup.outfit.lap) {
            add_pass(&record, &derived);
            good = check(&seed, preset_get(i)->id, &record, &all) && good;
        }
        record_done(&record);
    }
    assert_true(check_all(&all) && good);
}

/* What was entered narrows the ±, and has to hold what was entered. */
static void test_entered(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, entered");
    struct tally all = {.draws = {0}};
    struct record record;
    char line[120];

    (void)state;
    print_heading();
    survey_record_build(&record, "model clamped_ends = 1.4\nmodel press_depth = 0.2 mm\n"
                                 "model press_distance = 8 mm\nmodel free_length = 110 mm\n"
                                 "model core_modulus = 200 GPa");
    for (int s = 1; s <= 6; s++) {
        snprintf(line, sizeof line, "string.%d weigh_mass = %g g\nstring.%d weigh_length = 1000 mm",
                 s, 0.4 * s * s, s);
        build_record_add(&record, line);
        if (s >= 3) {
            snprintf(line, sizeof line, "string.%d core = .0%d5 in", s, 11 + s);
            build_record_add(&record, line);
        }
    }
    assert_true(check(&seed, "all of it entered", &record, &all));
    record_done(&record);
}

/* Cents read with a tuner of 1 cent, of strings that are pressed and held otherwise than the model
 * takes it: the ± then holds what the cents say, though the values shown do not go by them. */
static void test_by_tuner(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, by the tuner");
    struct tally all = {.draws = {0}};
    struct derived played;
    struct record record;

    (void)state;
    print_heading();
    survey_record_derive(&record, "model press_depth = 0.25 mm\nmodel clamped_ends = 0.9", &played);
    build_record_add(&record, "model press_depth = 0.2 mm\nmodel clamped_ends = 1");
    for (int s = 1; s <= 6; s++)
        for (int fret = 1; fret <= 19; fret++) {
            const struct reading_key key = reading_key_pass_at(FIELD_CENTS, 1, 1, s, fret);
            char text[24];

            snprintf(text, sizeof text, "%.1f", assert_given(played.pitch[s].cents[fret]));
            assert_int_equal(record_put(&record, &key, text, false, NULL), STATUS_OK);
        }
    assert_true(check(&seed, "depth and ends by the tuner", &record, &all));
    record_done(&record);
}

/* The setback of a course is that of both its strings: whatever is assumed of the second one, its
 * contact is known as one that is entered. */
static void enter_contact(struct assumed *assumed)
{
    for (int i = 0; i < assumed->count; i++)
        if (pitch_assumption_get(assumed->held[i].id)->about == ABOUT_CONTACT)
            assumed->held[i] = (struct pitch_assumption_held){
                PITCH_ASSUMPTION_CONTACT_ENTERED,
                pitch_assumption_get(PITCH_ASSUMPTION_CONTACT_ENTERED)->size};
}

static void test_courses(void **state)
{
    struct seeded seed = seeded_start("pitch coverage, courses");
    struct record record;

    (void)state;
    print_heading();
    build_record(&record, course_record);
    const struct tally tally = watch(&seed, &record, enter_contact);
    assert_true(print_row("a setback for each course", &tally, 2));
    record_done(&record);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profiles), cmocka_unit_test(test_presets),
        cmocka_unit_test(test_courses),  cmocka_unit_test(test_entered),
        cmocka_unit_test(test_by_tuner),
    };

    path_count = argc - 1;
    paths = argv + 1;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
