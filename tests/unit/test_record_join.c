/* SPDX-License-Identifier: MIT */
/* Two versions of a record put together: by what a shop would expect by hand, and by what must hold
 * whatever two benches did. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "demo/demo_shop.h"
#include "join_edits.h"
#include "model/common/day.h"
#include "model/reading/record_join.h"
#include "store/profile/preset.h"

enum { DIFFERENCES_MAX = 4000, PAIRS = 1000 };

static struct record_join *join;
static struct join_difference differences[DIFFERENCES_MAX];
static size_t count;

static void begin(const struct record *left, const struct record *right, const struct record *base)
{
    assert_int_equal(record_join_begin(join, left, right, base), STATUS_OK);
    count = record_join_list(join, differences, DIFFERENCES_MAX);
    assert_true(count <= DIFFERENCES_MAX);
}

static void make(struct record *ret_record)
{
    assert_int_equal(record_join_make(join, differences, count, ret_record), STATUS_OK);
    record_join_done(join);
}

static void assert_same(const struct record *got, const struct record *wanted)
{
    for (size_t i = 0; i < got->count && i < wanted->count; i++) {
        const struct reading *a = &got->readings[i], *b = &wanted->readings[i];
        char memory[2][80];
        struct strbuf is = STRBUF(memory[0]), should = STRBUF(memory[1]);

        reading_key_section(&a->key, &is);
        strbuf_add_char(&is, ' ');
        reading_key_name(&a->key, &is);
        reading_key_section(&b->key, &should);
        strbuf_add_char(&should, ' ');
        reading_key_name(&b->key, &should);
        assert_string_equal(memory[0], memory[1]);
        assert_string_equal(a->text, b->text);
    }
    assert_int_equal(got->count, wanted->count);
}

/* --- by hand --- */

static const char trunk[] = "profile format = 1\nboard scale = 650 mm\nboard strings = 6\n"
                            "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                            "visit.1.pass.1 relief = 0.2 mm\nvisit.1.pass.1 action.1 = 2 mm\n"
                            "visit.1.pass.1 action.6 = 2.5 mm\n";

/* Joins trunk with `left` and trunk with `right`; `wanted` is what should come out beside what
 * `also` lines replace. */
static void check(const char *left_more, const char *right_more, bool with_base, size_t shown,
                  size_t open, enum join_side side, const char *wanted_lines)
{
    struct record left, right, base, wanted, joined;

    build_record(&left, trunk);
    build_record_add(&left, left_more);
    build_record(&right, trunk);
    build_record_add(&right, right_more);
    build_record(&base, trunk);
    build_record(&wanted, trunk);
    build_record_add(&wanted, wanted_lines);
    begin(&left, &right, with_base ? &base : NULL);
    assert_int_equal(count, shown);
    assert_int_equal(join_count_open(differences, count), open);
    record_join_choose_all(join, side, differences, count);
    assert_int_equal(join_count_open(differences, count), 0);
    make(&joined);
    assert_same(&joined, &wanted);
    record_done(&joined);
    record_done(&wanted);
    record_done(&base);
    record_done(&right);
    record_done(&left);
}

#define LEFT_6  "visit.1.pass.1 action.6 = 2.6 mm\n"
#define RIGHT_6 "visit.1.pass.1 action.6 = 2.7 mm\n"
#define RIGHT_1 "visit.1.pass.1 action.1 = 1.9 mm\n"

static void a_cell_that_both_changed_is_open(void **state)
{
    (void)state;
    check(LEFT_6, RIGHT_6, true, 1, 1, JOIN_AS_LEFT, LEFT_6);
    check(LEFT_6, RIGHT_6, true, 1, 1, JOIN_AS_RIGHT, RIGHT_6);
    check(LEFT_6, RIGHT_6, false, 1, 1, JOIN_AS_RIGHT, RIGHT_6);
    check(LEFT_6, LEFT_6, true, 0, 0, JOIN_AS_RIGHT, LEFT_6);
}

/* What one side alone changed is taken where the common state is known, and asked where not. */
static void a_cell_that_one_changed_is_taken(void **state)
{
    struct record left, right, base, wanted, joined;

    (void)state;
    build_record(&left, trunk);
    build_record_add(&left, LEFT_6);
    build_record(&right, trunk);
    build_record_add(&right, RIGHT_1);
    build_record(&base, trunk);
    build_record(&wanted, trunk);
    build_record_add(&wanted, LEFT_6 RIGHT_1);
    begin(&left, &right, &base);
    assert_int_equal(count, 2);
    assert_int_equal(join_count_open(differences, count), 0);
    make(&joined);
    assert_same(&joined, &wanted);
    record_done(&joined);
    begin(&left, &right, NULL);
    assert_int_equal(join_count_open(differences, count), 2);
    record_join_done(join);
    record_done(&wanted);
    record_done(&base);
    record_done(&right);
    record_done(&left);
}

static void what_one_adds_is_shown_and_comes_in(void **state)
{
    (void)state;
    for (int base = 0; base < 2; base++) {
        check("instrument note = a\n", "visit.1 note = b\n", base, 2, 0, JOIN_AS_LEFT,
              "instrument note = a\nvisit.1 note = b\n");
        check("instrument note = a\n", "visit.1 note = b\n", base, 2, 0, JOIN_AS_RIGHT,
              "instrument note = a\nvisit.1 note = b\n");
    }
}

#define VISIT(number, date, time)                                                                  \
    "visit." number " date = " date "\nvisit." number ".pass.1 time = " time "\n"                  \
    "visit." number ".pass.1 relief = 0.3 mm\n"

/* Each bench began its own visit 2: two visits, even on one day, in the order of their days. */
static void visits_of_two_benches_are_two(void **state)
{
    (void)state;
    for (int base = 0; base < 2; base++) {
        check(VISIT("2", "2026-04-01", "09:00"), VISIT("2", "2026-05-01", "14:00"), base, 2, 0,
              JOIN_AS_LEFT, VISIT("2", "2026-04-01", "09:00") VISIT("3", "2026-05-01", "14:00"));
        check(VISIT("2", "2026-05-01", "09:00"), VISIT("2", "2026-04-01", "14:00"), base, 2, 0,
              JOIN_AS_LEFT, VISIT("2", "2026-04-01", "14:00") VISIT("3", "2026-05-01", "09:00"));
        check(VISIT("2", "2026-04-01", "09:00"), VISIT("2", "2026-04-01", "14:00"), base, 2, 0,
              JOIN_AS_LEFT, VISIT("2", "2026-04-01", "09:00") VISIT("3", "2026-04-01", "14:00"));
    }
}

/* However little a visit is, it comes in. */
static void a_visit_that_only_counts_comes_in(void **state)
{
    (void)state;
    check("", "visit.2 passes = 0\n", false, 1, 0, JOIN_AS_LEFT, "visit.2 passes = 0\n");
    check("", "profile format = 2\nvisit.2.board crown_height = 1 mm\n", false, 1, 0, JOIN_AS_LEFT,
          "profile format = 2\nvisit.2.board crown_height = 1 mm\n");
}

/* A visit that was put together before has another number here; its pass shows that it is one. */
static void one_visit_under_two_numbers_is_one(void **state)
{
    (void)state;
    check(VISIT("2", "2026-04-01", "09:00") VISIT("3", "2026-04-01", "14:00"),
          VISIT("2", "2026-04-01", "14:00"), false, 1, 0, JOIN_AS_LEFT,
          VISIT("2", "2026-04-01", "09:00") VISIT("3", "2026-04-01", "14:00"));
}

/* What a visit changed of the instrument goes with its visit. */
static void changes_follow_their_visit(void **state)
{
    (void)state;
    check(VISIT("2", "2026-05-01", "09:00"),
          VISIT("2", "2026-04-01", "14:00") "profile format = 2\nstring.1 gauge = 0.3 mm\n"
                                            "visit.2.string.1 gauge = 0.25 mm\n",
          true, 3, 0, JOIN_AS_LEFT,
          VISIT("2", "2026-04-01", "14:00")
              VISIT("3", "2026-05-01", "09:00") "profile format = 2\nstring.1 gauge = 0.3 "
                                                "mm\nvisit.2.string.1 gauge = 0.25 mm\n");
    check(VISIT("2", "2026-04-01", "09:00") "string.1 gauge = 0.3 mm\n",
          VISIT("2", "2026-05-01", "14:00") "profile format = 2\nstring.1 gauge = 0.3 mm\n"
                                            "visit.2.string.1 gauge = 0.25 mm\n",
          true, 2, 0, JOIN_AS_LEFT,
          VISIT("2", "2026-04-01", "09:00")
              VISIT("3", "2026-05-01", "14:00") "profile format = 2\nstring.1 gauge = 0.3 "
                                                "mm\nvisit.3.string.1 gauge = 0.25 mm\n");
}

#define PASS(number, time, relief)                                                                 \
    "visit.1.pass." number " time = " time "\nvisit.1.pass." number " relief = " relief "\n"

/* Passes go by their times, and a visit counts those that it has now. */
static void passes_of_two_benches_are_two(void **state)
{
    (void)state;
    check(PASS("2", "11:00", "0.1 mm") "visit.1 passes = 2\n",
          PASS("2", "10:30", "0.15 mm") "visit.1 passes = 2\n", true, 2, 0, JOIN_AS_LEFT,
          PASS("2", "10:30", "0.15 mm") PASS("3", "11:00", "0.1 mm") "visit.1 passes = 3\n");
    check(PASS("2", "11:00", "0.1 mm"), PASS("2", "11:00", "0.15 mm"), true, 1, 1, JOIN_AS_RIGHT,
          PASS("2", "11:00", "0.15 mm"));
}

/* Its pass 1 was taken out on the left: what was pass 2 is not taken for it. */
static void a_pass_taken_out_is_asked_about(void **state)
{
    struct record left, right, base, joined;

    (void)state;
    build_record(&base, trunk);
    build_record_add(&base, PASS("2", "11:00", "0.1 mm"));
    assert_int_equal(record_copy(&base, &right), STATUS_OK);
    build_record(&left, "profile format = 1\nboard scale = 650 mm\nboard strings = 6\n"
                        "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 11:00\n"
                        "visit.1.pass.1 relief = 0.1 mm\n");
    for (int side = JOIN_AS_LEFT; side <= JOIN_AS_RIGHT; side++) {
        begin(&left, &right, &base);
        assert_int_equal(count, 1);
        assert_int_equal(differences[0].what, JOIN_PASS);
        assert_int_equal(differences[0].side, JOIN_OPEN);
        differences[0].side = (enum join_side)side;
        make(&joined);
        assert_same(&joined, side == JOIN_AS_LEFT ? &left : &right);
        record_done(&joined);
    }
    record_done(&base);
    record_done(&right);
    record_done(&left);
}

#define WORK(number, kind, time)                                                                   \
    "visit.1.work." number " kind = " kind "\nvisit.1.work." number " time = " time "\n"

static void work_of_two_benches_is_all_done(void **state)
{
    (void)state;
    check(WORK("1", "rod", "10:20") WORK("2", "saddle", "10:50"), WORK("1", "slots", "10:40"), true,
          3, 0, JOIN_AS_LEFT,
          WORK("1", "rod", "10:20") WORK("2", "slots", "10:40") WORK("3", "saddle", "10:50"));
    check(WORK("1", "rod", "10:20"), WORK("1", "rod", "10:20") "visit.1.work.1 amount = 1/4 turn\n",
          true, 1, 0, JOIN_AS_LEFT, WORK("1", "rod", "10:20") "visit.1.work.1 amount = 1/4 turn\n");
}

static void notes_can_be_both(void **state)
{
    struct record left, right, joined;
    const struct reading_key note = reading_key_visit(FIELD_VISIT_NOTE, 1);

    (void)state;
    build_record(&left, trunk);
    build_record_add(&left, "visit.1 note = nut is bone\n" LEFT_6);
    build_record(&right, trunk);
    build_record_add(&right, "visit.1 note = call first\n" RIGHT_6);
    begin(&left, &right, NULL);
    assert_int_equal(count, 2);
    assert_true(record_join_may_be_both(join, &differences[0]));
    assert_false(record_join_may_be_both(join, &differences[1]));
    differences[0].side = JOIN_AS_BOTH;
    differences[1].side = JOIN_AS_RIGHT;
    make(&joined);
    assert_string_equal(record_text(&joined, &note), "nut is bone; call first");
    record_done(&joined);
    record_done(&right);
    record_done(&left);
}

/* A state before the common one holds what looks like the right side's change: it may be that the
 * right side never heard of the left one's. */
static void what_was_there_before_is_no_change(void **state)
{
    struct record left, right, base, earlier;

    (void)state;
    build_record(&left, trunk);
    build_record_add(&left, LEFT_6 "instrument note = n\n");
    build_record(&right, trunk);
    build_record_add(&right, RIGHT_1);
    build_record(&base, trunk);
    build_record_add(&base, LEFT_6);
    build_record(&earlier, trunk);
    begin(&left, &right, &base);
    assert_int_equal(count, 3); /* note, action.1, action.6 */
    assert_int_equal(join_count_open(differences, count), 0);
    assert_int_equal(record_join_doubt(join, &earlier, differences, count), STATUS_OK);
    assert_int_equal(join_count_open(differences, count), 1);
    assert_int_equal(differences[2].key.string, 6);
    assert_int_equal(differences[2].side, JOIN_OPEN);
    record_join_done(join);
    record_done(&earlier);
    record_done(&base);
    record_done(&right);
    record_done(&left);
}

/* --- whatever two benches did --- */

enum { INSTRUMENTS_MAX = 60 };
static struct record instruments[INSTRUMENTS_MAX];
static int instrument_count;

/* The made-up shop's: three years of visits, passes, work and restringing. */
static void make_instruments(void)
{
    const struct day last = {.year = 2026, .month = 11, .day = 1};
    const struct demo_wish wish = {.seed = 7, .last_day = day_number(&last), .metric = true};

    for (int i = 0; demo_shop_preset(i); i++) {
        struct record start;
        int preset = 0;

        while (strcmp(preset_get(preset)->id, demo_shop_preset(i)) != 0)
            preset++;
        assert_true(i < INSTRUMENTS_MAX);
        assert_int_equal(preset_record(preset_get(preset), &start), STATUS_OK);
        assert_int_equal(demo_shop_make(i, &wish, &start, &instruments[i]), STATUS_OK);
        record_done(&start);
        instrument_count++;
    }
}

static void copy_instrument(int i, struct record *ret_record)
{
    assert_int_equal(record_copy(&instruments[i % instrument_count], ret_record), STATUS_OK);
}

static void edit_some(struct join_bench *bench, struct record *record, int most)
{
    for (int i = seeded_whole(bench->seed, 0, most); i > 0; i--)
        join_edit(bench, record);
}

static void with_itself_nothing_differs(void **state)
{
    (void)state;
    for (int i = 0; i < instrument_count; i++) {
        struct record record, joined;

        copy_instrument(i, &record);
        for (int base = 0; base < 2; base++) {
            begin(&record, &record, base ? &record : NULL);
            assert_int_equal(count, 0);
            make(&joined);
            assert_same(&joined, &record);
            record_done(&joined);
        }
        record_done(&record);
    }
}

/* Where one side did nothing, the other one comes out, and only what it took out is asked about. */
static void the_side_that_did_something_wins(void **state)
{
    struct seeded seed = seeded_start("record_join");
    int edited = 0;

    (void)state;
    for (int i = 0; i < PAIRS; i++) {
        struct join_bench bench = {.seed = &seed, .side = i % 2};
        struct record base, other, joined;
        const bool is_left = i % 2;

        copy_instrument(i, &base);
        assert_int_equal(record_copy(&base, &other), STATUS_OK);
        edit_some(&bench, &other, 8);
        begin(is_left ? &other : &base, is_left ? &base : &other, &base);
        edited += count > 0;
        for (size_t d = 0; d < count; d++)
            if (differences[d].side == JOIN_OPEN) {
                assert_null(
                    record_join_reading(join, &differences[d], is_left ? JOIN_LEFT : JOIN_RIGHT));
                differences[d].side = is_left ? JOIN_AS_LEFT : JOIN_AS_RIGHT;
            }
        make(&joined);
        assert_same(&joined, &other);
        record_done(&joined);
        record_done(&other);
        record_done(&base);
    }
    assert_true(edited > PAIRS / 2);
}

static bool is_counted(const struct reading_key *key)
{
    return key->field != FIELD_FORMAT && key->field != FIELD_VISIT_PASSES;
}

/* How often a text stands in a kind of cell, under whatever visit and pass. */
static int count_text(const struct record *record, const struct reading *wanted)
{
    int found = 0;

    for (size_t i = 0; i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        found += reading->key.field == wanted->key.field &&
                 reading->key.string == wanted->key.string &&
                 reading->key.fret == wanted->key.fret && strcmp(reading->text, wanted->text) == 0;
    }
    return found;
}

static int count_shown(const struct reading *wanted)
{
    int found = 0;

    for (size_t d = 0; d < count; d++)
        for (enum join_version of = JOIN_LEFT; of <= JOIN_RIGHT; of++) {
            const struct reading *shown = record_join_reading(join, &differences[d], of);

            found += differences[d].what == JOIN_CELL && shown &&
                     shown->key.field == wanted->key.field &&
                     shown->key.string == wanted->key.string &&
                     shown->key.fret == wanted->key.fret && strcmp(shown->text, wanted->text) == 0;
        }
    return found;
}

/* Each text of a side stands in the result as often as on that side, or was shown. */
static void expect_all(const struct record *side, const struct record *joined, bool in_result)
{
    for (size_t i = 0; i < side->count; i++) {
        const struct reading *reading = &side->readings[i];

        if (!is_counted(&reading->key))
            continue;
        const int is = count_text(joined, reading) + (in_result ? 0 : count_shown(reading));
        if (is < count_text(side, reading))
            fail_msg("%s = %s is lost", field_get(reading->key.field)->key, reading->text);
    }
}

/* All of the left, and what only the right has: nothing of either is lost unseen. */
static void nothing_is_lost_unseen(void **state)
{
    struct seeded seed = seeded_start("record_join");
    size_t shown = 0;

    (void)state;
    for (int i = 0; i < PAIRS; i++) {
        struct join_bench bench[2] = {{.seed = &seed, .side = 0}, {.seed = &seed, .side = 1}};
        struct record base, side[2], joined;

        copy_instrument(i, &base);
        for (int of = 0; of < 2; of++) {
            assert_int_equal(record_copy(&base, &side[of]), STATUS_OK);
            for (int n = seeded_whole(&seed, 0, 8); n > 0; n--)
                join_edit_adding(&bench[of], &side[of]);
        }
        begin(&side[0], &side[1], i % 3 ? &base : NULL);
        shown += count;
        record_join_choose_all(join, JOIN_AS_LEFT, differences, count);
        assert_int_equal(record_join_make(join, differences, count, &joined), STATUS_OK);
        expect_all(&side[0], &joined, true);
        expect_all(&side[1], &joined, false);
        record_join_done(join);
        record_done(&joined);
        record_done(&side[0]);
        record_done(&side[1]);
        record_done(&base);
    }
    assert_true(shown > 2 * PAIRS);
}

/* What was put together, put together again with either of both, asks for nothing new: all that
 * both know is known. */
static void once_joined_nothing_is_added(void **state)
{
    struct seeded seed = seeded_start("record_join");

    (void)state;
    for (int i = 0; i < PAIRS / 4; i++) {
        struct join_bench bench[2] = {{.seed = &seed, .side = 0}, {.seed = &seed, .side = 1}};
        struct record base, side[2], joined, again;

        copy_instrument(i, &base);
        for (int of = 0; of < 2; of++) {
            assert_int_equal(record_copy(&base, &side[of]), STATUS_OK);
            edit_some(&bench[of], &side[of], 6);
        }
        begin(&side[0], &side[1], &base);
        record_join_choose_all(join, JOIN_AS_LEFT, differences, count);
        make(&joined);
        begin(&joined, &joined, NULL);
        assert_int_equal(count, 0);
        make(&again);
        assert_same(&again, &joined);
        record_done(&again);
        record_done(&joined);
        record_done(&side[0]);
        record_done(&side[1]);
        record_done(&base);
    }
}

static int set_up(void **state)
{
    (void)state;
    join = calloc(1, sizeof *join);
    if (join)
        make_instruments();
    return join ? 0 : -1;
}

static int tear_down(void **state)
{
    (void)state;
    for (int i = 0; i < instrument_count; i++)
        record_done(&instruments[i]);
    free(join);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cell_that_both_changed_is_open),
        cmocka_unit_test(a_cell_that_one_changed_is_taken),
        cmocka_unit_test(what_one_adds_is_shown_and_comes_in),
        cmocka_unit_test(visits_of_two_benches_are_two),
        cmocka_unit_test(a_visit_that_only_counts_comes_in),
        cmocka_unit_test(one_visit_under_two_numbers_is_one),
        cmocka_unit_test(changes_follow_their_visit),
        cmocka_unit_test(passes_of_two_benches_are_two),
        cmocka_unit_test(a_pass_taken_out_is_asked_about),
        cmocka_unit_test(work_of_two_benches_is_all_done),
        cmocka_unit_test(notes_can_be_both),
        cmocka_unit_test(what_was_there_before_is_no_change),
        cmocka_unit_test(with_itself_nothing_differs),
        cmocka_unit_test(the_side_that_did_something_wins),
        cmocka_unit_test(nothing_is_lost_unseen),
        cmocka_unit_test(once_joined_nothing_is_added),
    };

    return cmocka_run_group_tests_name("record_join", tests, set_up, tear_down) ? 1 : 0;
}
