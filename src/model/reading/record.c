/* SPDX-License-Identifier: MIT */
#include "model/reading/record.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"

void record_init(struct record *record)
{
    *record = (struct record){0};
}

/* Texts in the record's room are freed with it. */
static void free_text(const struct record *record, char *text)
{
    const uintptr_t at = (uintptr_t)text, room = (uintptr_t)record->room;

    if (at < room || at >= room + record->room_size)
        free(text);
}

void record_done(struct record *record)
{
    for (size_t i = 0; i < record->count; i++)
        free_text(record, record->readings[i].text);
    free(record->room);
    free(record->readings);
    record_init(record);
}

struct record record_as_of_pass(const struct record *record, int visit, int pass)
{
    struct record as_of = *record;

    as_of.capacity = 0;
    if (visit > 0) {
        as_of.as_of = visit;
        as_of.as_of_pass = pass;
    }
    return as_of;
}

struct record record_as_of(const struct record *record, int visit)
{
    return record_as_of_pass(record, visit, 0);
}

static size_t lower_bound(const struct record *record, uint64_t order)
{
    size_t low = 0, high = record->count;

    while (low < high) {
        const size_t middle = low + (high - low) / 2;

        if (record->readings[middle].order < order)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

size_t record_lower_bound(const struct record *record, const struct reading_key *key)
{
    return lower_bound(record, reading_key_order(key));
}

static bool holds_at(const struct record *record, size_t at, uint64_t order)
{
    return at < record->count && record->readings[at].order == order;
}

static enum status make_room(struct record *record)
{
    struct reading *readings =
        array_grow(record->readings, record->count, &record->capacity, sizeof *readings);

    if (!readings)
        return STATUS_NO_MEMORY;
    record->readings = readings;
    return STATUS_OK;
}

enum status record_reserve(struct record *record, size_t readings, size_t bytes)
{
    struct reading *grown =
        realloc(record->readings, (record->count + readings + 1) * sizeof *grown);

    if (!grown)
        return STATUS_NO_MEMORY;
    record->readings = grown;
    record->capacity = record->count + readings + 1;
    if (record->count > 0 || record->room || bytes == 0)
        return STATUS_OK;
    record->room = malloc(bytes);
    record->room_size = record->room ? bytes : 0;
    return record->room ? STATUS_OK : STATUS_NO_MEMORY;
}

static char *copy_text(struct record *record, const char *text)
{
    const size_t size = strlen(text) + 1;
    const bool fits = size <= record->room_size - record->room_used;
    char *copy = fits ? record->room + record->room_used : malloc(size);

    if (fits)
        record->room_used += size;
    if (copy)
        memcpy(copy, text, size);
    return copy;
}

/* What comes in order, as from a file, belongs at the end. */
static size_t place_for(const struct record *record, uint64_t order)
{
    if (record->count > 0 && record->readings[record->count - 1].order < order)
        return record->count;
    return lower_bound(record, order);
}

enum status record_put_read(struct record *record, const struct reading_key *key, const char *text,
                            struct field_value value)
{
    const uint64_t order = reading_key_order(key);
    const size_t at = place_for(record, order);
    char *copy = copy_text(record, text);

    if (!copy)
        return STATUS_NO_MEMORY;
    if (holds_at(record, at, order)) {
        free_text(record, record->readings[at].text);
        record->readings[at].text = copy;
        record->readings[at].value = value;
        return STATUS_OK;
    }
    if (make_room(record) != STATUS_OK) {
        free_text(record, copy);
        return STATUS_NO_MEMORY;
    }
    memmove(&record->readings[at + 1], &record->readings[at],
            (record->count - at) * sizeof record->readings[0]);
    record->readings[at] =
        (struct reading){.key = *key, .order = order, .text = copy, .value = value};
    record->count++;
    record->setbacks += key->field == FIELD_SETBACK_READ;
    record->changes += reading_key_is_change(key);
    return STATUS_OK;
}

static enum status read_text(const struct reading_key *key, const char *text,
                             struct field_value *ret_value, struct field_fault *ret_fault)
{
    const struct field *field = field_get(key->field);

    if (!reading_key_is_change(key) || strcmp(text, RECORD_GONE) != 0)
        return field_read(field, text, field_file_unit(field), ret_value, ret_fault);
    *ret_value = (struct field_value){.value = 0, .state = READING_GONE};
    return STATUS_OK;
}

enum status record_put(struct record *record, const struct reading_key *key, const char *text,
                       bool keep_bad, struct field_fault *ret_fault)
{
    struct field_value value = {.value = 0, .state = READING_BAD};
    struct field_fault fault = {.status = STATUS_OK};
    const enum status status = read_text(key, text, &value, &fault);

    if (status != STATUS_OK && ret_fault)
        *ret_fault = fault;
    if (status != STATUS_OK && !keep_bad)
        return status;
    const enum status placed = record_put_read(record, key, text, value);
    return placed != STATUS_OK ? placed : status;
}

bool record_remove(struct record *record, const struct reading_key *key)
{
    const uint64_t order = reading_key_order(key);
    const size_t at = lower_bound(record, order);

    if (!holds_at(record, at, order))
        return false;
    free_text(record, record->readings[at].text);
    memmove(&record->readings[at], &record->readings[at + 1],
            (record->count - at - 1) * sizeof record->readings[0]);
    record->count--;
    record->setbacks -= key->field == FIELD_SETBACK_READ;
    record->changes -= reading_key_is_change(key);
    return true;
}

enum status record_try(struct record *record, const struct reading_key *key, const char *text,
                       struct record_trial *ret_trial)
{
    struct record_trial trial = {.key = *key};
    const uint64_t order = reading_key_order(key);
    const size_t at = lower_bound(record, order);

    /* The text that was there is kept out of the record's hands. */
    if (holds_at(record, at, order)) {
        trial.was = record->readings[at];
        record->readings[at].text = NULL;
    }
    const enum status status = record_put(record, key, text, false, NULL);
    if (status == STATUS_OK)
        *ret_trial = trial;
    else if (trial.was.text)
        record->readings[at] = trial.was;
    return status;
}

void record_end_try(struct record *record, struct record_trial *trial)
{
    if (!trial->was.text) {
        record_remove(record, &trial->key);
        return;
    }
    struct reading *reading = &record->readings[record_lower_bound(record, &trial->key)];
    free_text(record, reading->text);
    *reading = trial->was;
}

const struct reading *record_find(const struct record *record, const struct reading_key *key)
{
    const uint64_t order = reading_key_order(key);
    const size_t at = lower_bound(record, order);

    return holds_at(record, at, order) ? &record->readings[at] : NULL;
}

/* The last of a reading and its changes that is not beyond the visit. */
static const struct reading *find_as_of(const struct record *record, const struct reading_key *key)
{
    const int visit = record->as_of > 0 ? record->as_of : VISITS_MAX;
    const struct reading_key beyond = reading_key_as_of(*key, visit + 1);
    const size_t at = record_lower_bound(record, &beyond);

    return at > 0 && reading_key_is_same_fact(&record->readings[at - 1].key, key)
               ? &record->readings[at - 1]
               : NULL;
}

int record_since(const struct record *record, const struct reading_key *key)
{
    const struct reading *held = find_as_of(record, key);

    return held ? held->key.visit : 0;
}

/* The last setback of a string that a pass read, in the visit given or after it; NULL for none. */
static const struct reading *find_setback(const struct record *record, int string, int from_visit)
{
    const int visit = record->as_of > 0 ? record->as_of : VISITS_MAX;
    const int pass = record->as_of_pass > 0 ? record->as_of_pass : PASSES_MAX;
    const struct reading_key beyond = reading_key_pass(FIELD_PASS_LABEL, visit, pass + 1);
    size_t at = record->setbacks > 0 ? record_lower_bound(record, &beyond) : 0;

    while (at > 0) {
        const struct reading_key *last = &record->readings[at - 1].key;
        const enum section section = field_get(last->field)->section;

        if (section_is_of_instrument(section) || last->visit < from_visit)
            return NULL;
        const struct reading_key first = reading_key_pass(
            section == SECTION_PASS ? FIELD_PASS_LABEL : last->field, last->visit, last->part);
        const struct reading_key read =
            reading_key_pass_at(FIELD_SETBACK_READ, last->visit, last->part, string, 0);
        const struct reading *found = section == SECTION_PASS ? record_find(record, &read) : NULL;

        if (found)
            return found;
        at = record_lower_bound(record, &first);
    }
    return NULL;
}

const struct reading *record_get(const struct record *record, const struct reading_key *key)
{
    if (key->visit > 0 || !section_is_of_instrument(field_get(key->field)->section))
        return record_find(record, key);
    const struct reading *held = find_as_of(record, key);
    const struct reading *read = key->field == FIELD_SETBACK
                                     ? find_setback(record, key->string, held ? held->key.visit : 0)
                                     : NULL;

    if (read)
        return read;
    return held && held->value.state != READING_GONE ? held : NULL;
}

const char *record_text(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_get(record, key);

    return reading ? reading->text : NULL;
}

bool record_is_changed(const struct record *record)
{
    return record->changes > 0;
}

static size_t text_bytes(const struct record *record)
{
    size_t bytes = 0;

    for (size_t i = 0; i < record->count; i++)
        bytes += strlen(record->readings[i].text) + 1;
    return bytes;
}

enum status record_copy(const struct record *record, struct record *ret_copy)
{
    struct record copy;

    record_init(&copy);
    copy.as_of = record->as_of;
    copy.as_of_pass = record->as_of_pass;
    enum status status = record_reserve(&copy, record->count, text_bytes(record));
    for (size_t i = 0; status == STATUS_OK && i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        status = record_put_read(&copy, &reading->key, reading->text, reading->value);
    }
    if (status == STATUS_OK)
        *ret_copy = copy;
    else
        record_done(&copy);
    return status;
}

bool record_equal(const struct record *a, const struct record *b)
{
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (a->readings[i].order != b->readings[i].order ||
            strcmp(a->readings[i].text, b->readings[i].text) != 0)
            return false;
    return true;
}
