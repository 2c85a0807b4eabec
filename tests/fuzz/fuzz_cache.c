/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <stdio.h>
#include <math.h>
#include <string.h>

#include "store/bytes.h"
#include "store/crc32.h"
#include "store/shelf/shelf_cache.h"

/*
 * The shelf's cache: the bytes as they are, whose checksum will not match, and again as the entries
 * of a valid cache. What is read is sorted and complete, and survives writing and reading.
 */

static const char folder[] = "/shop";

static bool facts_equal(const struct shelf_facts *a, const struct shelf_facts *b)
{
    for (int i = 0; i < FACT_NUMBERS_; i++)
        if (a->number[i].given != b->number[i].given ||
            (a->number[i].given && !(fabs(a->number[i].value - b->number[i].value) <=
                                     1e-6 + 1e-12 * fabs(a->number[i].value))))
            return false;
    return memcmp(a->texts, b->texts, sizeof a->texts) == 0;
}

static bool entries_equal(const struct shelf_entry *a, const struct shelf_entry *b)
{
    return strcmp(a->file, b->file) == 0 && facts_equal(a->facts, b->facts) &&
           shelf_stamp_equal(&a->stamp, &b->stamp) && a->status == b->status &&
           a->newer == b->newer && strcmp(a->card.name, b->card.name) == 0 &&
           strcmp(a->card.kind, b->card.kind) == 0 && strcmp(a->card.owner, b->card.owner) == 0 &&
           strcmp(a->card.maker, b->card.maker) == 0 &&
           strcmp(a->card.serial, b->card.serial) == 0 &&
           strcmp(a->card.visit, b->card.visit) == 0 && a->card.moves_open == b->card.moves_open &&
           a->card.to_measure == b->card.to_measure &&
           fabs(a->card.rod.per_turn_mm - b->card.rod.per_turn_mm) < 1e-9 &&
           fabs(a->card.rod.per_turn_u_mm - b->card.rod.per_turn_u_mm) < 1e-9;
}

static void check_entries(const struct shelf_entries *entries)
{
    for (size_t i = 0; i < entries->count; i++) {
        const struct shelf_entry *entry = &entries->items[i];

        FUZZ_CHECK(shelf_cache_wants(entry));
        FUZZ_CHECK(i == 0 || strcmp(entry[-1].file, entry->file) < 0);
        FUZZ_CHECK(shelf_entries_find(entries, entry->file) == entry);
    }
}

static void check_round_trip(const char *path, const struct shelf_entries *entries)
{
    struct shelf_entries again;

    FUZZ_CHECK(shelf_cache_write(path, folder, entries) == STATUS_OK);
    FUZZ_CHECK(shelf_cache_read(path, folder, &again) == STATUS_OK);
    FUZZ_CHECK(again.count == entries->count);
    for (size_t i = 0; i < again.count; i++)
        FUZZ_CHECK(entries_equal(&again.items[i], &entries->items[i]));
    shelf_entries_done(&again);
}

/* False when it was refused. */
static bool read_cache(const void *data, size_t size)
{
    struct shelf_entries entries;
    const char *path = fuzz_file(data, size);
    const enum status status = shelf_cache_read(path, folder, &entries);

    FUZZ_CHECK(status == STATUS_OK || status == STATUS_DAMAGED);
    if (status != STATUS_OK)
        return false;
    check_entries(&entries);
    check_round_trip(path, &entries);
    shelf_entries_done(&entries);
    return true;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char tail[32];
    struct bytes bytes;

    (void)read_cache(data, size);
    bytes_init(&bytes);
    bytes_add_text(&bytes, "sillet shelf 11 " SILLET_VERSION "\n");
    bytes_add_text(&bytes, folder);
    bytes_add_text(&bytes, "\n");
    if (size > 0)
        bytes_add(&bytes, (const char *)data, size);
    FUZZ_CHECK(bytes_status(&bytes) == STATUS_OK);
    snprintf(tail, sizeof tail, "crc32 %08lx\n", (unsigned long)crc32_of(bytes.data, bytes.length));
    bytes_add_text(&bytes, tail);
    /* No entry at all is a whole cache: the dress is this version's. */
    FUZZ_CHECK(read_cache(bytes.data, bytes.length) || size > 0);
    bytes_done(&bytes);
    return 0;
}
