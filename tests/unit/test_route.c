/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "leaf/leaves.h"
#include "model/figure/bench_row.h"
#include "session/leaf.h"

static void lay_bench(struct route *route, int strings, int visit, int pass)
{
    const struct leaf_place place = {
        .outfit = outfit_plain(strings), .strings = strings, .visit = visit, .pass = pass};

    leaf_lay(&leaf_bench, &place, route);
}

static void route_goes_as_a_tech_measures(void **state)
{
    struct route route;

    (void)state;
    lay_bench(&route, 6, 2, 1);
    assert_int_equal(route.count, 15);
    assert_int_equal(route.columns, 6);
    assert_int_equal(route.cells[0].key.field, FIELD_RELIEF);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(route.cells[1 + i].key.field, FIELD_NUT_GAP);
        assert_int_equal(route.cells[1 + i].key.string, 6 - i);
        assert_int_equal(route.cells[1 + i].string, 6 - i);
        assert_int_equal(route.cells[1 + i].column, i);
        assert_int_equal(route.cells[7 + i].key.field, FIELD_ACTION);
        assert_int_equal(route.cells[7 + i].key.string, 6 - i);
    }
    assert_int_equal(route.cells[13].key.field, FIELD_EXPOSURE_BASS);
    assert_int_equal(route.cells[13].string, 6);
    assert_int_equal(route.cells[14].key.field, FIELD_EXPOSURE_TREBLE);
    assert_int_equal(route.cells[14].string, 1);
    assert_int_equal(route.cells[14].column, 5);
    for (int i = 0; i < route.count; i++) {
        assert_int_equal(route.cells[i].key.visit, 2);
        assert_int_equal(route.cells[i].key.part, 1);
    }
}

/* From the second pass on the rod may have been turned since the one before. */
static void route_asks_for_the_rod_s_turns(void **state)
{
    struct route route;

    (void)state;
    lay_bench(&route, 6, 2, 3);
    assert_int_equal(route.count, 16);
    assert_int_equal(route.cells[1].key.field, FIELD_ROD_TURN);
    assert_int_equal(route.cells[1].row, ROW_RELIEF);
    assert_int_equal(route.cells[1].key.part, 3);
}

/* For every number of strings: cells inside the board, in the order of the rows, none at
 * another's place, each found by its key. */
static void route_holds_for_every_number_of_strings(void **state)
{
    (void)state;
    for (int strings = -1; strings <= STRINGS_MAX; strings++) {
        struct route route;
        const int laid = strings < 1 ? 1 : strings;

        lay_bench(&route, strings, 1, 1);
        assert_int_equal(route.count, 3 + 2 * laid);
        assert_true(route.count <= ROUTE_MAX);
        assert_true(route.columns >= laid);
        for (int i = 0; i < route.count; i++) {
            const struct route_cell *cell = &route.cells[i];

            assert_true(cell->column >= 0 && cell->column < route.columns);
            assert_true(cell->string >= 1 && cell->string <= laid);
            assert_true(cell->row < ROW_COUNT_);
            assert_int_equal(route_find(&route, &cell->key), i);
            if (i > 0) {
                assert_true(cell->row >= cell[-1].row);
                assert_true(cell->row > cell[-1].row || cell->column > cell[-1].column);
            }
        }
    }
}

static void route_finds_only_its_own(void **state)
{
    const struct reading_key other_pass = reading_key_pass(FIELD_RELIEF, 1, 2);
    const struct reading_key other_field = reading_key_pass(FIELD_NUT_METHOD, 1, 1);
    struct route route;

    (void)state;
    lay_bench(&route, 4, 1, 1);
    assert_int_equal(route_find(&route, &other_pass), -1);
    assert_int_equal(route_find(&route, &other_field), -1);
}

static void route_moves_over_the_board(void **state)
{
    struct route route;

    (void)state;
    lay_bench(&route, 6, 1, 1);
    /* Down the bass side. */
    assert_int_equal(route_move(&route, 0, 1, 0), 1);
    assert_int_equal(route_move(&route, 1, 1, 0), 7);
    assert_int_equal(route_move(&route, 7, 1, 0), 13);
    assert_int_equal(route_move(&route, 13, 1, 0), 15);
    /* The shorter rows give their nearest cell. */
    assert_int_equal(route_move(&route, 6, -1, 0), 0);
    assert_int_equal(route_move(&route, 11, 1, 0), 14);
    assert_int_equal(route_move(&route, 8, 1, 0), 13);
    assert_int_equal(route_move(&route, 14, -1, 0), 12);
    /* Sideways within a row only. */
    assert_int_equal(route_move(&route, 1, 0, 1), 2);
    assert_int_equal(route_move(&route, 6, 0, 1), 6);
    assert_int_equal(route_move(&route, 7, 0, -1), 7);
    assert_int_equal(route_move(&route, 0, 0, -1), 0);
    assert_int_equal(route_move(&route, 0, -1, 0), 0);
    assert_int_equal(route_move(&route, 13, 0, 1), 14);
    /* The pass's end lies behind the last cell. */
    assert_int_equal(route_move(&route, 15, -1, 0), 14);
    assert_int_equal(route_move(&route, 15, 0, -1), 14);
    assert_int_equal(route_move(&route, 15, 1, 0), 15);
    assert_int_equal(route_move(&route, 15, 0, 1), 15);
}

static void route_never_leaves_the_board(void **state)
{
    (void)state;
    for (int strings = 1; strings <= STRINGS_MAX; strings++) {
        struct route route;

        lay_bench(&route, strings, 1, 1);
        for (int at = 0; at <= route.count; at++)
            for (int way = 0; way < 4; way++) {
                const int rows = way < 2 ? 2 * way - 1 : 0, columns = way < 2 ? 0 : 2 * way - 5;
                const int to = route_move(&route, at, rows, columns);

                assert_true(to >= 0 && to <= route.count);
            }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(route_goes_as_a_tech_measures),
        cmocka_unit_test(route_asks_for_the_rod_s_turns),
        cmocka_unit_test(route_holds_for_every_number_of_strings),
        cmocka_unit_test(route_finds_only_its_own),
        cmocka_unit_test(route_moves_over_the_board),
        cmocka_unit_test(route_never_leaves_the_board),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
