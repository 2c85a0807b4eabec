/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "base/array.h"

#include <stdint.h>
#include <stdlib.h>

static void items_stay_as_the_array_grows(void **state)
{
    int *items = NULL;
    size_t capacity = 0;

    (void)state;
    for (int i = 0; i < 1000; i++) {
        int *moved = array_grow(items, (size_t)i, &capacity, sizeof *items);

        assert_non_null(moved);
        assert_true(capacity > (size_t)i);
        items = moved;
        items[i] = i;
    }
    for (int i = 0; i < 1000; i++)
        assert_int_equal(items[i], i);
    free(items);
}

static void an_array_with_room_is_left_alone(void **state)
{
    int items[4];
    size_t capacity = 4;

    (void)state;
    assert_ptr_equal(array_grow(items, 3, &capacity, sizeof items[0]), items);
    assert_int_equal(capacity, 4);
}

static void a_size_beyond_memory_is_refused(void **state)
{
    char item;
    size_t capacity = SIZE_MAX / 8 + 1;

    (void)state;
    assert_null(array_grow(&item, capacity, &capacity, 4));
    assert_int_equal(capacity, SIZE_MAX / 8 + 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(items_stay_as_the_array_grows),
        cmocka_unit_test(an_array_with_room_is_left_alone),
        cmocka_unit_test(a_size_beyond_memory_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
