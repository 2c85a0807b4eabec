/* SPDX-License-Identifier: MIT */
#include "model/setup/saddle_work.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "build_record.h"
#include "near.h"
#include "seeded.h"
#include "words/move_words.h"

/*
 * A saddle in one piece is raised, or cut, by one straight line at its bottom, and filed on its top
 * string by string. Expected: plane geometry, by hand.
 */

static const struct outfit six = {
    .strings = 6,
    .course = {0, 1, 2, 3, 4, 5, 6},
    .read_as = {0, 1, 2, 3, 4, 5, 6},
};

static struct saddle_work work_of(const double *change_mm, double u_mm)
{
    double u[STRINGS_MAX + 1];

    for (int s = 0; s <= STRINGS_MAX; s++)
        u[s] = u_mm;
    return saddle_work_find(&six, change_mm, u);
}

/* Strings that lie in no line by less than can be told get the line, and nothing off the top. */
static void what_cannot_be_told_is_not_filed(void **state)
{
    static const double change[STRINGS_MAX + 1] = {0, 1.19, 1.40, 1.40, 1.60, 1.60, 1.60};
    const struct saddle_work work = work_of(change, 0.28);
    const double step = saddle_work_at(&work, &six, 2) - saddle_work_at(&work, &six, 1);

    (void)state;
    assert_int_equal(saddle_work_next_top(&work, 7), 0);
    for (int s = 1; s <= 6; s++) {
        assert_near(saddle_work_at(&work, &six, s), work.bottom.treble_mm + (s - 1) * step, 1e-9);
        assert_near(saddle_work_at(&work, &six, s), change[s], 0.28);
    }
    assert_near(saddle_work_at(&work, &six, 6), work.bottom.bass_mm, 1e-9);
}

/* One that the line leaves too high beyond doubt is named, and by so much. */
static void what_the_line_lifts_too_far_is_filed(void **state)
{
    static const double change[STRINGS_MAX + 1] = {0, 1, 1, 0.2, 1, 1, 1};
    const struct saddle_work work = work_of(change, 0.2);

    (void)state;
    assert_int_equal(saddle_work_next_top(&work, 7), 3);
    assert_int_equal(saddle_work_next_top(&work, 3), 0);
    assert_near(saddle_work_at(&work, &six, 3), 0.2, 1e-9);
    assert_true(work.top_mm[3] < -0.2);
}

/* Ups and downs that are each less than their doubt are nothing to raise or cut. */
static void a_mixed_row_within_its_doubt_is_left(void **state)
{
    static const double change[STRINGS_MAX + 1] = {0, 0.2, -0.03, 0.53, -0.13, 0.43, 0.2};
    const struct saddle_work work = work_of(change, 0.33);

    (void)state;
    for (int s = 1; s <= 6; s++)
        assert_near(saddle_work_at(&work, &six, s), 0, 1e-9);
}

static void no_amount_is_less_than_its_doubt(void **state)
{
    struct seeded seed = {.state = 4};

    (void)state;
    for (int i = 0; i < 20000; i++) {
        double change[STRINGS_MAX + 1] = {0};
        const double u = seeded_between(&seed, 0.02, 0.5), off = seeded_between(&seed, -1, 1);

        for (int s = 1; s <= 6; s++)
            change[s] = off + seeded_between(&seed, -0.6, 0.6);
        const struct saddle_work work = work_of(change, u);
        const double bass = work.bottom.bass_mm, treble = work.bottom.treble_mm;

        assert_true(bass == 0 || fabs(bass) > u);
        assert_true(treble == 0 || fabs(treble) > u);
        for (int s = 1; s <= 6; s++) {
            assert_true(work.top_mm[s] == 0 || work.top_mm[s] < -u);
            assert_true(saddle_work_at(&work, &six, s) <= change[s] + u + 1e-9);
        }
    }
}

static void make_words(const char *lines, struct derived *ret_derived, struct move_words *ret_words)
{
    const struct shop_units units = shop_units_inch();

    *ret_derived = build_derived(lines, "");
    move_words_make(ret_derived, MOVE_SADDLE, &units, ret_words);
}

#define CLASSICAL                                                                                  \
    "board scale = 25.6 in\nboard strings = 6\nboard frets = 19\nboard join_fret = 12\n"           \
    "board relief_fret = 6\nbridge kind = blank\nbridge exposure_min = 5/64 in\n"                  \
    "neck rod = none\ntargets relief = .006 in\ntargets action_bass = 10/64 in\n"                  \
    "targets action_treble = 7.5/64 in\ntargets nut_gap_bass = .028 in\n"                          \
    "targets nut_gap_treble = .020 in\nvisit.1.pass.1 relief = .002 in\n"                          \
    "visit.1.pass.1 nut_gap.6 = .026 in\nvisit.1.pass.1 nut_gap.5 = .024 in\n"                     \
    "visit.1.pass.1 nut_gap.4 = .022 in\nvisit.1.pass.1 nut_gap.3 = .021 in\n"                     \
    "visit.1.pass.1 nut_gap.2 = .020 in\nvisit.1.pass.1 nut_gap.1 = .018 in\n"                     \
    "visit.1.pass.1 exposure_bass = 7/64 in\nvisit.1.pass.1 exposure_treble = 6.5/64 in\n"

/* What a shop reads: the row, what is done at the bottom, and what the rule reads then, agree: a
 * bottom raised by .066 in leaves 7/64 in of saddle at 11.2. */
static void row_and_text_and_exposure_agree(void **state)
{
    struct derived derived;
    struct move_words words;
    char said[800];

    (void)state;
    make_words(CLASSICAL
               "visit.1.pass.1 action.6 = 8/64 in\nvisit.1.pass.1 action.5 = 7.5/64 in\n"
               "visit.1.pass.1 action.4 = 7/64 in\nvisit.1.pass.1 action.3 = 6.75/64 in\n"
               "visit.1.pass.1 action.2 = 6.25/64 in\nvisit.1.pass.1 action.1 = 6/64 in\n",
               &derived, &words);
    snprintf(said, sizeof said, "raise the bottom by %s to %s in", words.string[6] + 1,
             words.string[1] + 1);
    if (!strstr(words.then, said) || !strstr(words.then, "exposure 11 to 9.5 /64") ||
        strstr(words.then, "top"))
        fail_msg("'%s', wanted '%s'", words.then, said);
    for (int s = 2; s <= 5; s++)
        assert_near(derived.moves.move[MOVE_SADDLE].string[s].value,
                    derived.moves.move[MOVE_SADDLE].string[1].value +
                        (derived.moves.move[MOVE_SADDLE].string[6].value -
                         derived.moves.move[MOVE_SADDLE].string[1].value) *
                            (s - 1) / 5,
                    1e-9);
}

/* String 3 stands half a millimetre too high between others that are low: its top is filed. */
static void a_top_that_is_filed_is_named(void **state)
{
    struct derived derived;
    struct move_words words;

    (void)state;
    make_words(CLASSICAL
               "visit.1.pass.1 action.6 = 8/64 in\nvisit.1.pass.1 action.5 = 7.5/64 in\n"
               "visit.1.pass.1 action.4 = 7/64 in\nvisit.1.pass.1 action.3 = 8/64 in\n"
               "visit.1.pass.1 action.2 = 6.25/64 in\nvisit.1.pass.1 action.1 = 6/64 in\n",
               &derived, &words);
    if (!strstr(words.then, "raise the bottom by") ||
        !strstr(words.then, ", off the top, string 3 ."))
        fail_msg("'%s'", words.then);
    assert_near(derived.moves.move[MOVE_SADDLE].action_then[3].value, 25.4 * 8.5 / 64, 0.2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_cannot_be_told_is_not_filed),
        cmocka_unit_test(what_the_line_lifts_too_far_is_filed),
        cmocka_unit_test(a_mixed_row_within_its_doubt_is_left),
        cmocka_unit_test(no_amount_is_less_than_its_doubt),
        cmocka_unit_test(row_and_text_and_exposure_agree),
        cmocka_unit_test(a_top_that_is_filed_is_named),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
