/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>

#include "build_record.h"
#include "model/derive/derive.h"

/* What is due, what is done, and the verdict. Expected: common practice (rod before slots
 * before saddle; no work on what a gauge cannot resolve), no published source. */

static struct move_set moves_of(const char *lines)
{
    struct derived *derived = malloc(sizeof *derived);
    struct record record;

    build_record(&record, build_record_full);
    build_record_add(&record, lines);
    derive_current(&record, derived);
    const struct move_set moves = derived->moves;
    record_done(&record);
    free(derived);
    return moves;
}

/* Read .013, wanted .006: .007 in to take out. */
static void a_rod_s_amount_is_the_change_of_relief(void **state)
{
    const struct move_set high = moves_of("visit.1.pass.1 relief = .013 in\n");
    const struct move_set low = moves_of("visit.1.pass.1 relief = -.004 in\n");

    (void)state;
    assert_int_equal(high.move[MOVE_ROD].state, MOVE_DUE);
    assert_near(high.move[MOVE_ROD].amount.value, -0.007 * 25.4, 1e-6);
    assert_near(low.move[MOVE_ROD].amount.value, 0.010 * 25.4, 1e-6);
}

/* Tolerance .001 in: on its edge the relief is left alone. A step of .005 in has
 * U = 2 x .005 / sqrt 12 = .0029 in, so that .002 in off cannot be told from none. */
static void a_move_is_due_beyond_tolerance_and_doubt(void **state)
{
    (void)state;
    assert_int_equal(moves_of("visit.1.pass.1 relief = .007 in\n").move[MOVE_ROD].state, MOVE_GOOD);
    assert_int_equal(moves_of("visit.1.pass.1 relief = .009 in\n").move[MOVE_ROD].state, MOVE_DUE);
    assert_int_equal(moves_of("visit.1.pass.1 relief = .008 in\nmodel feeler_step = .005 in\n")
                         .move[MOVE_ROD]
                         .state,
                     MOVE_GOOD);
}

/* The twelve passes before one are looked back at. Where a pass reads one string's action alone,
 * what is believed of the relief and of the other strings is from the first. */
static void the_thirteenth_pass_still_knows_of_the_first(void **state)
{
#define AS_WANTED                                                                                  \
    "visit.1.pass.1 relief = .006 in\n"                                                            \
    "visit.1.pass.1 nut_gap.1 = .018 in\nvisit.1.pass.1 nut_gap.6 = .018 in\n"                     \
    "visit.1.pass.1 action.1 = 4/64 in\nvisit.1.pass.1 action.6 = 6/64 in\n"
    const struct move_set thirteenth = moves_of(AS_WANTED "visit.1.pass.13 action.1 = 5/64 in\n");
    const struct move_set fourteenth = moves_of(AS_WANTED "visit.1.pass.14 action.1 = 5/64 in\n");
#undef AS_WANTED

    (void)state;
    assert_int_equal(thirteenth.move[MOVE_ROD].state, MOVE_GOOD);
    assert_true(thirteenth.move[MOVE_SADDLE].string[6].known);
    assert_int_equal(fourteenth.move[MOVE_ROD].state, MOVE_UNKNOWN);
    assert_false(fourteenth.move[MOVE_SADDLE].string[6].known);
}

/* A screw is turned for its own string alone: not by less than can be told. */
static void a_screw_is_turned_for_its_own_string(void **state)
{
    const struct move_set moves = moves_of("bridge kind = screw\nbridge thread = 0.5 mm\n"
                                           "visit.1.pass.1 relief = .006 in\n"
                                           "visit.1.pass.1 nut_gap.1 = .012 in\n"
                                           "visit.1.pass.1 action.1 = 4.3/64 in\n"
                                           "visit.1.pass.1 action.2 = 6.5/64 in\n");
    const struct move *saddle = &moves.move[MOVE_SADDLE];

    (void)state;
    assert_int_equal(saddle->state, MOVE_DUE);
    assert_true(saddle->string[2].due && saddle->string[6].due);
    assert_true(saddle->string[1].known && saddle->string[1].value != 0);
    assert_false(saddle->string[1].due);
    assert_near(saddle->most_u, saddle->string[6].u, 0.05);
}

/* Posts raise a whole side, so that no inner string is due by itself. */
static void inner_strings_on_posts_follow(void **state)
{
    const struct move_set moves = moves_of("bridge kind = post\n");
    const struct move *saddle = &moves.move[MOVE_SADDLE];

    (void)state;
    assert_true(saddle->string[1].due && saddle->string[6].due);
    for (int s = 2; s <= 5; s++)
        assert_false(saddle->string[s].due);
    assert_true(saddle->inner_follow);
}

static void a_mark_closes_a_move_until_the_next_pass(void **state)
{
    static const char marked[] = "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\n"
                                 "visit.1.work.1 time = 10:30\n";
    char memory[300];
    struct strbuf again = STRBUF(memory);
    const struct move_set moves = moves_of(marked);

    (void)state;
    assert_int_equal(moves.move[MOVE_ROD].state, MOVE_DUE);
    assert_int_equal(moves.move[MOVE_ROD].done_by, 1);
    assert_true(move_is_done(&moves.move[MOVE_ROD]));
    assert_false(move_is_open(&moves.move[MOVE_ROD]));
    assert_int_equal(move_set_count(&moves, move_is_done), 1);
    strbuf_add(&again, marked);
    strbuf_add(&again, "visit.1.pass.2 time = 11:00\nvisit.1.pass.2 relief = .010 in\n");
    assert_true(move_is_open(&moves_of(memory).move[MOVE_ROD]));
}

static void the_verdict_says_what_comes_first(void **state)
{
    static const char low[] =
        "visit.1.pass.1 relief = .006 in\nvisit.1.pass.1 exposure_bass = 1.5 mm\n"
        "visit.1.pass.1 exposure_treble = 1.5 mm\n";
    static const char done[] =
        "visit.1.pass.1 time = 10:00\nvisit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:30\n"
        "visit.1.work.2 kind = slots\nvisit.1.work.2 time = 10:40\n"
        "visit.1.work.3 kind = saddle\nvisit.1.work.3 time = 10:50\n";
    struct move_set moves = moves_of("");

    (void)state;
    assert_int_equal(move_set_verdict(&moves), MOVES_WORK);
    moves = moves_of(low);
    assert_int_equal(move_set_verdict(&moves), MOVES_RESET);
    assert_near(moves.move[MOVE_RESET].amount.value, 0.006, 0.02);
    assert_true(moves.move[MOVE_RESET].amount.value > 0);
    moves = moves_of(done);
    assert_int_equal(move_set_verdict(&moves), MOVES_MEASURE);
    assert_string_equal(move_verdict_name(MOVES_READY), "ready");
}

/* A board alone: each move waits, and says for what; exposure may stay unread. */
static void what_is_unknown_has_a_need(void **state)
{
    struct derived *derived = malloc(sizeof *derived);
    struct record record;

    (void)state;
    build_record(&record, "board scale = 25.5 in\nboard strings = 6\nboard frets = 22\n"
                          "board join_fret = 16\n");
    derive_pass(place_of(&record, 1, 1), derived);
    for (int kind = MOVE_ROD; kind < MOVE_COUNT_; kind++) {
        assert_int_equal(derived->moves.move[kind].state, MOVE_UNKNOWN);
        if (!move_is_measured((enum move_kind)kind)) {
            assert_false(move_is_missed(&derived->moves.move[kind]));
            continue;
        }
        assert_int_equal(derived->moves.move[kind].needs, NEED_RELIEF);
        assert_true(move_is_missed(&derived->moves.move[kind]));
    }
    assert_int_equal(derived->moves.move[MOVE_RESET].needs, NEED_EXPOSURE);
    assert_false(move_is_missed(&derived->moves.move[MOVE_RESET]));
    assert_int_equal(move_set_verdict(&derived->moves), MOVES_MEASURE);
    record_done(&record);
    free(derived);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rod_s_amount_is_the_change_of_relief),
        cmocka_unit_test(a_move_is_due_beyond_tolerance_and_doubt),
        cmocka_unit_test(the_thirteenth_pass_still_knows_of_the_first),
        cmocka_unit_test(a_screw_is_turned_for_its_own_string),
        cmocka_unit_test(inner_strings_on_posts_follow),
        cmocka_unit_test(a_mark_closes_a_move_until_the_next_pass),
        cmocka_unit_test(the_verdict_says_what_comes_first),
        cmocka_unit_test(what_is_unknown_has_a_need),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
