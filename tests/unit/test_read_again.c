/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "build_record.h"
#include "model/derive/derive.h"
#include "model/setup/belief.h"

/*
 * What one more reading tells of what was read before. Expected: the rules of the Guide to the
 * expression of uncertainty in measurement (JCGM 100:2008), written out here: 4.3.7, a step; 4.2.3,
 * the mean of n readings; F.2.2.1, readings that are all alike; 5.2.2, what they have in common.
 */

static const double leaf_mm = 0.05, rule_mm = 0.5; /* steps */

static const char board[] =
    "board scale = 648 mm\nboard strings = 6\nboard frets = 20\nboard join_fret = 14\n"
    "board relief_fret = 7\nneck rod = two-way\nbridge kind = screw\ntargets relief = 0.20 mm\n"
    "targets action_bass = 2 mm\ntargets action_treble = 2 mm\ntargets nut_gap_bass = 0.4 mm\n"
    "targets nut_gap_treble = 0.4 mm\nmodel feeler_step = 0.05 mm\nmodel rule_step = 0.5 mm\n"
    "visit.1 date = 2026-03-02\n";

struct made {
    struct record record;
    struct derived derived;
    int pass;
};

static struct made *begin(void)
{
    struct made *made = calloc(1, sizeof *made);

    assert_non_null(made);
    build_record(&made->record, board);
    return made;
}

static void end(struct made *made)
{
    record_done(&made->record);
    free(made);
}

static void put_pass(struct made *made, double relief_mm, double gap_mm, double action_mm)
{
    char line[60];

    made->pass++;
    snprintf(line, sizeof line, "visit.1.pass.%d time = %d:00\n", made->pass, 9 + made->pass);
    build_record_add(&made->record, line);
    build_record_put_mm(&made->record, reading_key_pass(FIELD_RELIEF, 1, made->pass), relief_mm);
    for (int s = 1; s <= 6; s++) {
        build_record_put_mm(&made->record, reading_key_pass_at(FIELD_NUT_GAP, 1, made->pass, s, 0),
                            gap_mm);
        build_record_put_mm(&made->record, reading_key_pass_at(FIELD_ACTION, 1, made->pass, s, 0),
                            action_mm);
    }
    derive_current(&made->record, &made->derived);
}

/* Of n readings: what they have in common, and the mean of what they do not. */
static double left(double step_mm, double hand_mm, int times)
{
    return sqrt(step_mm * step_mm / 12 + hand_mm * hand_mm / times);
}

static void readings_that_are_alike_leave_the_step(void **state)
{
    struct made *made = begin();

    (void)state;
    for (int n = 1; n <= 6; n++) {
        put_pass(made, 0.20, 0.40, 2);
        const struct move_set *moves = &made->derived.moves;

        assert_near(moves->relief.mm.value, 0.20, 1e-6);
        assert_near(moves->relief.u, 2 * left(leaf_mm, BELIEF_FEELER_MM, n), 1e-5);
        assert_true(moves->relief.u > 2 * leaf_mm / sqrt(12));
        for (int s = 1; s <= 6; s++) {
            assert_near(moves->gap[s].u, 2 * left(leaf_mm, BELIEF_FEELER_MM, n), 1e-4);
            assert_near(moves->action[s].u, 2 * left(rule_mm, BELIEF_RULE_MM, n), 1e-3);
        }
    }
    end(made);
}

/* Those on either side of a mark count alike. */
static void readings_that_differ_leave_their_mean(void **state)
{
    static const double relief_mm[] = {0.20, 0.25, 0.20, 0.25, 0.25};
    struct made *made = begin();
    double sum = 0;

    (void)state;
    for (int n = 1; n <= 5; n++) {
        put_pass(made, relief_mm[n - 1], 0.40, 2);
        sum += relief_mm[n - 1];
        assert_near(made->derived.moves.relief.mm.value, sum / n, 1e-5);
    }
    end(made);
}

/* What was moved is read anew: what was known of it, with the hand that worked, and the reading do
 * not go together, and each counts by one over its square (least squares). Gaps and actions tell a
 * little of it too. */
static void what_was_moved_is_read_anew(void **state)
{
    struct made *made = begin();

    (void)state;
    put_pass(made, 0.20, 0.40, 2);
    put_pass(made, 0.60, 0.40, 2); /* turned by somebody */
    put_pass(made, 0.60, 0.40, 2);
    build_record_add(&made->record, "visit.1.work.1 kind = rod\nvisit.1.work.1 time = 12:30\n");
    put_pass(made, 0.20, 0.40, 2);
    const double known = BELIEF_RELIEF_MM, read = left(leaf_mm, BELIEF_FEELER_MM, 1);
    assert_near(made->derived.moves.relief.u, 2 / sqrt(1 / (known * known) + 1 / (read * read)),
                1e-3);
    end(made);
}

/* A slot filed by a tenth moves the action by half of that, a tenth of the rule's step: it is on
 * the same mark, and no better known than before. */
static void what_hardly_moved_is_on_the_same_mark(void **state)
{
    struct made *made = begin();

    (void)state;
    put_pass(made, 0.20, 0.50, 2);
    put_pass(made, 0.20, 0.50, 2);
    build_record_add(&made->record, "visit.1.work.1 kind = slots\nvisit.1.work.1 time = 11:30\n"
                                    "visit.1.work.1 amount = .1 mm\n");
    put_pass(made, 0.20, 0.40, 2);
    for (int s = 1; s <= 6; s++) {
        assert_true(made->derived.moves.action[s].u > 2 * rule_mm / sqrt(12));
        assert_true(made->derived.moves.action[s].u < 2 * left(rule_mm, BELIEF_RULE_MM, 2));
    }
    end(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_that_are_alike_leave_the_step),
        cmocka_unit_test(readings_that_differ_leave_their_mean),
        cmocka_unit_test(what_was_moved_is_read_anew),
        cmocka_unit_test(what_hardly_moved_is_on_the_same_mark),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
