/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "body_frame.h"
#include "build_record.h"
#include "model/derive/derive.h"
#include "near.h"
#include "seeded.h"

/*
 * Random instruments in an independent geometry (body_frame.h): read with all gauges, worked
 * on as the moves say, and read again. The model's predictions must come out, and no move
 * may be left.
 */

struct instrument {
    struct record record;
    int strings, frets, pass;
    int relief_fret;
    bool held;
    struct body_frame lane[STRINGS_MAX + 1]; /* 0: the middle scale */
};

/* A line with one number, behind the text. */
static void add(struct record *record, const char *text, int number)
{
    char line[128];

    snprintf(line, sizeof line, "%s %d", text, number);
    build_record_add(record, line);
}

static void make_record(struct seeded *seed, struct instrument *made)
{
    struct record *record = &made->record;

    record_init(record);
    made->strings = seeded_whole(seed, 1, STRINGS_MAX);
    made->frets = seeded_whole(seed, 16, 27);
    made->held = seeded_whole(seed, 0, 1);
    add(record, "board strings =", made->strings);
    add(record, "board frets =", made->frets);
    add(record, "board join_fret =", seeded_whole(seed, 12, 16));
    add(record, "board relief_end_low =", seeded_whole(seed, 0, 2));
    add(record, "board relief_fret =", made->relief_fret = seeded_whole(seed, 5, 8));
    build_record_put_mm(record, reading_key_one(FIELD_SCALE_TREBLE),
                        seeded_between(seed, 330, 700));
    build_record_put_mm(record, reading_key_one(FIELD_SCALE_BASS), seeded_between(seed, 600, 900));
    if (seeded_whole(seed, 0, 1))
        build_record_add(record, "neck join = pocket");
    for (int s = 1; s <= made->strings; s++)
        build_record_put_mm(record, reading_key_string(FIELD_SETBACK, s),
                            seeded_between(seed, -1, 6));
    build_record_add(record, "targets action_bass = 2.4 mm\ntargets action_treble = 1.6 mm\n"
                             "targets nut_gap_bass = .018 in\ntargets nut_gap_treble = .012 in\n"
                             "targets relief = .006 in");
}

static void make_lanes(struct seeded *seed, struct instrument *made)
{
    struct derived derived;
    const double fall = seeded_between(seed, 0, 0.3), bend = seeded_between(seed, -0.1, 0.6);
    const int spot = seeded_whole(seed, 2, 11);
    const double spot_mm = seeded_between(seed, -0.06, 0.06);

    derive_pass(place_of(&made->record, 0, 0), &derived);
    const struct board *board = &derived.setup.board;
    for (int lane = 0; lane <= made->strings; lane++) {
        struct body_frame *body = &made->lane[lane];

        *body = (struct body_frame){.scale = board->scale_mm[lane],
                                    .contact = board->contact_mm[lane],
                                    .low = board->end_low,
                                    .high = board->end_high,
                                    .heel = board->heel_fret,
                                    .last = made->frets,
                                    .fall = fall,
                                    .slot = seeded_between(seed, 0.2, 1.2),
                                    .saddle = seeded_between(seed, 4, 9)};
        body->offset[spot] = spot_mm;
        body->kappa = body_kappa_for(&made->lane[0], made->relief_fret, bend);
    }
}

/* Reads the bench as the next pass. */
static void read_pass(struct instrument *made)
{
    struct record *record = &made->record;
    const int pass = ++made->pass;
    const struct reading_key method = reading_key_pass(FIELD_NUT_METHOD, 1, pass);

    build_record_put_mm(record, reading_key_pass(FIELD_RELIEF, 1, pass),
                        body_relief(&made->lane[0], made->relief_fret));
    build_record_put_mm(record, reading_key_pass(FIELD_FALL_AWAY, 1, pass), made->lane[0].fall);
    for (int n = 1; n <= made->frets; n++)
        if (made->lane[0].offset[n] < 0 || made->lane[0].offset[n] > 0)
            build_record_put_mm(record, reading_key_pass_at(FIELD_SPOT, 1, pass, 0, n),
                                made->lane[0].offset[n]);
    if (made->held)
        assert_int_equal(record_put(record, &method, "held-3", false, NULL), STATUS_OK);
    for (int s = 1; s <= made->strings; s++) {
        const struct body_frame *body = &made->lane[s];

        build_record_put_mm(record, reading_key_pass_at(FIELD_NUT_GAP, 1, pass, s, 0),
                            made->held ? body_gap_held(body) : body_gap_open(body));
        build_record_put_mm(record, reading_key_pass_at(FIELD_ACTION, 1, pass, s, 0),
                            body_action(body, 12));
    }
}

static double figure(const struct derived *derived, enum figure_id id, int string)
{
    const struct maybe figure = figures_get(&derived->figures, id, string);

    if (!figure.given)
        fail_msg("absent: %s, string %d", figure_info(id)->name, string);
    return figure.value;
}

/* The rod turned until the straightedge says so. */
static void turn_rod(struct instrument *made, double relief_mm)
{
    const double kappa = body_kappa_for(&made->lane[0], made->relief_fret, relief_mm);

    for (int lane = 0; lane <= made->strings; lane++)
        made->lane[lane].kappa = kappa;
}

/* Readings are kept to 1e-12 mm, and a gap's error grows some tenfold on the way. */
#define NEAR_MM 1e-9

static void work_and_check(struct instrument *made)
{
    struct derived found, left;

    read_pass(made);
    derive_pass(place_of(&made->record, 1, made->pass), &found);
    assert_int_equal(found.setup.board.strings, made->strings);
    if (found.choice.rod)
        turn_rod(made, .006 * 25.4);
    for (int s = 1; s <= made->strings; s++) {
        struct body_frame *body = &made->lane[s];

        assert_near(figure(&found, FIGURE_ACTION_AFTER_ROD, s), body_action(body, 12), NEAR_MM);
        assert_near(figure(&found, FIGURE_GAP_AFTER_ROD, s), body_gap_open(body), NEAR_MM);
        body->slot += figure(&found, FIGURE_SLOT_CHANGE, s);
        assert_near(figure(&found, FIGURE_ACTION_AFTER_NUT, s), body_action(body, 12), NEAR_MM);
        body->saddle += figure(&found, FIGURE_SADDLE_CHANGE, s);
    }
    read_pass(made);
    derive_pass(place_of(&made->record, 1, made->pass), &left);
    assert_false(left.choice.rod);
    assert_true(fabs(figure(&left, FIGURE_RELIEF, 0) - .006 * 25.4) <= .001 * 25.4 + NEAR_MM);
    if (found.choice.rod)
        assert_near(figure(&left, FIGURE_RELIEF, 0), .006 * 25.4, NEAR_MM);
    for (int s = 1; s <= made->strings; s++) {
        assert_false(left.choice.slot[s] || left.choice.saddle[s]);
        assert_near(figure(&left, FIGURE_SLOT_CHANGE, s), 0, 0);
        assert_near(figure(&left, FIGURE_SADDLE_CHANGE, s), 0, 0);
        const double action = assert_given(setup_target_at(&left.setup.action_target_bass_mm,
                                                           &left.setup.action_target_treble_mm,
                                                           &left.setup.outfit, s));
        const double gap =
            assert_given(setup_target_at(&left.setup.gap_target_bass_mm,
                                         &left.setup.gap_target_treble_mm, &left.setup.outfit, s));
        assert_near(figure(&left, FIGURE_ACTION, s), action,
                    found.choice.saddle[s] ? NEAR_MM : 25.4 / 128);
        assert_near(figure(&left, FIGURE_GAP_AT_TARGET, s), gap,
                    found.choice.slot[s] ? NEAR_MM : .001 * 25.4);
        assert_near(left.lines.now[s].nut_mm, found.lines.after[s].nut_mm, NEAR_MM);
        assert_near(left.lines.now[s].saddle_mm, found.lines.after[s].saddle_mm, NEAR_MM);
    }
}

static void test_moves_come_out(void **state)
{
    struct seeded seed = seeded_start("moves_reread");

    (void)state;
    for (int round = 0; round < 400; round++) {
        struct instrument made = {.pass = 0};

        make_record(&seed, &made);
        make_lanes(&seed, &made);
        work_and_check(&made);
        record_done(&made.record);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_moves_come_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
