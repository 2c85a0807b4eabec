/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "screen/grid_view.h"

/* Wherever the cell in hand is, it is in the window, the window is in the table, and it shows as
 * much of the table as fits. */
static void the_cell_in_hand_is_always_seen(void **state)
{
    (void)state;
    for (int width = 5; width <= 60; width += 5)
        for (int columns = 1; columns <= 36; columns++)
            for (int at = 0; at < columns; at++) {
                const struct grid_room room = {.rows = 3, .width = width, .cell = 5};
                const struct grid grid = grid_fit(&room, 12, columns, at % 12, at);
                const int fits = width / 5 < columns ? width / 5 : columns;

                assert_int_equal(grid.shown_columns, fits);
                assert_true(grid.left >= 0 && grid.left + fits <= columns);
                assert_true(grid_column(&grid, at) >= 0);
                assert_true(grid_column(&grid, at) + 5 <= width);
                assert_in_range(grid_row(&grid, at % 12), 0, 2);
            }
}

static void what_is_outside_has_no_place(void **state)
{
    const struct grid_room room = {.row = 4, .rows = 6, .column = 10, .width = 35, .cell = 5};
    const struct grid grid = grid_fit(&room, 6, 22, 0, 11);

    (void)state;
    assert_int_equal(grid_column(&grid, grid.left - 1), -1);
    assert_int_equal(grid_column(&grid, grid.left), 10);
    assert_int_equal(grid_column(&grid, grid.left + 7), -1);
    assert_int_equal(grid_row(&grid, -1), -1);
    assert_int_equal(grid_row(&grid, 0), 4);
    assert_int_equal(grid_row(&grid, 6), -1);
}

/* Going along a row, the window stands still for half its width at a time. */
static void the_window_moves_by_halves(void **state)
{
    const struct grid_room room = {.rows = 1, .width = 50, .cell = 5};
    int moves = 0, left = 0;

    (void)state;
    for (int at = 0; at < 36; at++) {
        const struct grid grid = grid_fit(&room, 1, 36, 0, at);

        moves += grid.left != left;
        left = grid.left;
    }
    assert_in_range(moves, 1, 36 / 5);
}

/* A table that has nothing in it, or no room. */
static void nothing_has_no_place(void **state)
{
    const struct grid_room none = {.rows = 0, .width = 3, .cell = 5};
    const struct grid_room room = {.rows = 5, .width = 30, .cell = 5};
    const struct grid cramped = grid_fit(&none, 6, 22, 2, 3);
    const struct grid empty = grid_fit(&room, 0, 0, 0, -1);

    (void)state;
    assert_int_equal(grid_column(&cramped, 3), -1);
    assert_int_equal(grid_row(&cramped, 2), -1);
    assert_int_equal(grid_column(&empty, 0), -1);
    assert_int_equal(grid_row(&empty, 0), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_cell_in_hand_is_always_seen),
        cmocka_unit_test(what_is_outside_has_no_place),
        cmocka_unit_test(the_window_moves_by_halves),
        cmocka_unit_test(nothing_has_no_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
