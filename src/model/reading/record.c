/* SPDX-License-Identifier: MIT */
#include "model/reading/record.h"

#include <stdlib.h>
#include <string.h>

#include "base/array.h"

void record_init(struct record *record)
{
    *record = (struct record){0};
}

void record_done(struct record *record)
{
    for (size_t i = 0; i < record->count; i++)
        free(record->readings[i].text);
    free(record->readings);
    record_init(record);
}

size_t record_lower_bound(const struct record *record, const struct reading_key *key)
{
    size_t low = 0, high = record->count;

    while (low < high) {
        const size_t middle = low + (high - low) / 2;

        if (reading_key_compare(&record->readings[middle].key, key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static bool holds_at(const struct record *record, size_t at, const struct reading_key *key)
{
    return at < record->count && reading_key_compare(&record->readings[at].key, key) == 0;
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

static char *copy_text(const char *text)
{
    const size_t size = strlen(text) + 1;
    char *copy = malloc(size);

    if (copy)
        memcpy(copy, text, size);
    return copy;
}

/* Puts an understood text at its place; takes ownership of nothing. */
static enum status place(struct record *record, const struct reading_key *key, const char *text,
                         struct field_value value)
{
    const size_t at = record_lower_bound(record, key);
    char *copy = copy_text(text);

    if (!copy)
        return STATUS_NO_MEMORY;
    if (holds_at(record, at, key)) {
        free(record->readings[at].text);
        record->readings[at].text = copy;
        record->readings[at].value = value;
        return STATUS_OK;
    }
    if (make_room(record) != STATUS_OK) {
        free(copy);
        return STATUS_NO_MEMORY;
    }
    memmove(&record->readings[at + 1], &record->readings[at],
            (record->count - at) * sizeof record->readings[0]);
    record->readings[at] = (struct reading){.key = *key, .text = copy, .value = value};
    record->count++;
    return STATUS_OK;
}

enum status record_put(struct record *record, const struct reading_key *key, const char *text,
                       bool keep_bad, struct field_fault *ret_fault)
{
    const struct field *field = field_get(key->field);
    struct field_value value = {.value = 0, .state = READING_BAD};
    struct field_fault fault = {.status = STATUS_OK};
    const enum status status = field_read(field, text, field_file_unit(field), &value, &fault);

    if (status != STATUS_OK && ret_fault)
        *ret_fault = fault;
    if (status != STATUS_OK && !keep_bad)
        return status;
    const enum status placed = place(record, key, text, value);
    return placed != STATUS_OK ? placed : status;
}

bool record_remove(struct record *record, const struct reading_key *key)
{
    const size_t at = record_lower_bound(record, key);

    if (!holds_at(record, at, key))
        return false;
    free(record->readings[at].text);
    memmove(&record->readings[at], &record->readings[at + 1],
            (record->count - at - 1) * sizeof record->readings[0]);
    record->count--;
    return true;
}

const struct reading *record_get(const struct record *record, const struct reading_key *key)
{
    const size_t at = record_lower_bound(record, key);

    return holds_at(record, at, key) ? &record->readings[at] : NULL;
}

const char *record_text(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_get(record, key);

    return reading ? reading->text : NULL;
}

int record_last_visit(const struct record *record)
{
    if (record->count == 0)
        return 0;
    /* All of a visit's sections come last in the order, so the last reading tells. */
    return record->readings[record->count - 1].key.visit;
}

bool record_next_visit(const struct record *record, int *visit)
{
    /* No number of a pass or work line is beyond this. */
    const struct reading_key beyond = {
        .field = FIELD_WORK_TIME, .visit = *visit, .part = WORKS_MAX + 1};

    for (size_t i = record_lower_bound(record, &beyond); i < record->count; i++)
        if (record->readings[i].key.visit > *visit) {
            *visit = record->readings[i].key.visit;
            return true;
        }
    return false;
}

static int last_part(const struct record *record, int visit, enum field_id first,
                     enum section section)
{
    /* The greatest key below a part that cannot exist is the last part's. */
    const struct reading_key beyond = {.field = first, .visit = visit, .part = WORKS_MAX + 1};
    const size_t at = record_lower_bound(record, &beyond);

    if (at == 0)
        return 0;
    const struct reading_key *key = &record->readings[at - 1].key;
    if (key->visit != visit || field_get(key->field)->section != section)
        return 0;
    return key->part;
}

int record_last_pass(const struct record *record, int visit)
{
    return last_part(record, visit, FIELD_PASS_LABEL, SECTION_PASS);
}

static bool is_read(const struct record *record, int visit, int pass)
{
    const struct reading_key first = reading_key_pass(FIELD_PASS_LABEL, visit, pass);

    for (size_t i = record_lower_bound(record, &first); i < record->count; i++) {
        const struct reading_key *key = &record->readings[i].key;

        if (field_get(key->field)->section != SECTION_PASS || key->visit != visit ||
            key->part != pass)
            return false;
        if (key->field != FIELD_ROD_TURN)
            return true;
    }
    return false;
}

int record_last_read_pass(const struct record *record, int visit)
{
    int pass = record_last_pass(record, visit);

    while (pass > 0 && !is_read(record, visit, pass))
        pass--;
    return pass;
}

int record_last_work(const struct record *record, int visit)
{
    return last_part(record, visit, FIELD_WORK_KIND, SECTION_WORK);
}

enum status record_copy(const struct record *record, struct record *ret_copy)
{
    struct record copy;

    record_init(&copy);
    for (size_t i = 0; i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        if (place(&copy, &reading->key, reading->text, reading->value) != STATUS_OK) {
            record_done(&copy);
            return STATUS_NO_MEMORY;
        }
    }
    *ret_copy = copy;
    return STATUS_OK;
}

bool record_equal(const struct record *a, const struct record *b)
{
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (reading_key_compare(&a->readings[i].key, &b->readings[i].key) != 0 ||
            strcmp(a->readings[i].text, b->readings[i].text) != 0)
            return false;
    return true;
}
