/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <string.h>

#include "store/file_read.h"
#include "model/reading/shop_own.h"
#include "store/shop.h"
#include "store/shop_targets.h"

/*
 * shop.ini. Reading it gives a unit for every gauge; units written into the file survive reading,
 * and are written again as the same bytes. So do the shop's targets for each kind, and once they
 * are forgotten none is left.
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

static void keep_and_take(const char *path, const struct record *record)
{
    struct record again;
    int count;

    FUZZ_CHECK(shop_targets_keep(path, record) == STATUS_OK);
    FUZZ_CHECK(record_copy(record, &again) == STATUS_OK);
    FUZZ_CHECK(shop_targets_take(path, &again, &count) == STATUS_OK);
    FUZZ_CHECK(count == shop_own_count(record));
    FUZZ_CHECK(record_equal(record, &again));
    record_done(&again);
}

/* Takes what the file has for a kind, keeps it anew, and forgets it. */
static void take_keep_forget(const char *path, const char *kind)
{
    const struct reading_key key = reading_key_one(FIELD_KIND);
    struct record record;
    int count;

    record_init(&record);
    FUZZ_CHECK(record_put(&record, &key, kind, false, NULL) == STATUS_OK);
    FUZZ_CHECK(shop_targets_take(path, &record, &count) == STATUS_OK);
    FUZZ_CHECK(count == shop_own_count(&record));
    for (size_t i = 0; i < record.count; i++)
        FUZZ_CHECK(record.readings[i].value.state != READING_BAD);
    if (count > 0)
        keep_and_take(path, &record);
    FUZZ_CHECK(shop_targets_forget(path, &record) == STATUS_OK);
    FUZZ_CHECK(shop_targets_take(path, &record, &count) == STATUS_OK && count == 0);
    record_done(&record);
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
        take_keep_forget(path, "steel-string");
        take_keep_forget(path, "bass");
        write_and_read(path, &units);
    }
    problems_done(&problems);
    return 0;
}
