/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <string.h>

#include "store/file_read.h"
#include "store/shop.h"

/*
 * shop.ini. Reading it gives a unit for every gauge; units written into the file survive reading,
 * and are written again as the same bytes.
 */

static bool units_equal(const struct shop_units *a, const struct shop_units *b)
{
    for (int i = 0; i < MEASURE_COUNT_; i++)
        if (a->bare[i] != b->bare[i])
            return false;
    return true;
}

static void check_units(const struct shop_units *units)
{
    for (int i = 0; i < FIELD_COUNT_; i++) {
        const struct field *field = field_get((enum field_id)i);

        if (field->measure != MEASURE_NONE)
            FUZZ_CHECK(unit_quantity(units->bare[field->measure]) == field->quantity);
    }
}

static void write_and_read(const char *path, const struct shop_units *units)
{
    struct shop_units again;
    struct bytes first, second;

    FUZZ_CHECK(shop_write(path, units) == STATUS_OK);
    FUZZ_CHECK(shop_read(path, NULL, &again) == STATUS_OK);
    FUZZ_CHECK(units_equal(units, &again));
    FUZZ_CHECK(file_read(path, FILE_BYTES_MAX, &first) == STATUS_OK);
    FUZZ_CHECK(shop_write(path, units) == STATUS_OK);
    FUZZ_CHECK(file_read(path, FILE_BYTES_MAX, &second) == STATUS_OK);
    FUZZ_CHECK(bytes_equal(&first, &second));
    bytes_done(&second);
    bytes_done(&first);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *path = fuzz_file(data, size);
    const struct shop_units inch = shop_units_inch(), metric = shop_units_metric();
    struct problems problems;
    struct shop_units units;

    problems_init(&problems);
    if (shop_read(path, &problems, &units) == STATUS_OK) {
        check_units(&units);
        write_and_read(path, &units);
        write_and_read(path, &metric);
        write_and_read(path, &inch);
        write_and_read(path, &units);
    }
    problems_done(&problems);
    return 0;
}
