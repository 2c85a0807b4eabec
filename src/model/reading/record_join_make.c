/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "base/strbuf.h"
#include "model/reading/record_access.h"
#include "model/reading/record_join_inside.h"

static const char between[] = "; ";

bool record_join_may_be_both(const struct record_join *join,
                             const struct join_difference *difference)
{
    enum { NOTE_BYTES_MIN = 2000 }; /* no name or number is allowed to be so long */
    const struct field *field = field_get(difference->key.field);
    const char *left = join_text(join, JOIN_LEFT, &difference->key);
    const char *right = join_text(join, JOIN_RIGHT, &difference->key);

    return difference->what == JOIN_CELL && field->kind == KIND_TEXT &&
           field->possible_max >= NOTE_BYTES_MIN && left && right &&
           (double)(strlen(left) + strlen(between) + strlen(right)) <= field->possible_max;
}

static enum status put_both(const struct record_join *join,
                            const struct join_difference *difference, struct record *joined)
{
    char memory[FIELD_TEXT_MAX + 1];
    struct strbuf text = STRBUF(memory);

    if (!record_join_may_be_both(join, difference))
        return STATUS_OK;
    strbuf_add(&text, join_text(join, JOIN_LEFT, &difference->key));
    strbuf_add(&text, between);
    strbuf_add(&text, join_text(join, JOIN_RIGHT, &difference->key));
    return record_put(joined, &difference->key, memory, true, NULL);
}

static enum status put_cell(const struct record_join *join,
                            const struct join_difference *difference, struct record *joined)
{
    const struct reading *right = record_join_reading(join, difference, JOIN_RIGHT);

    if (difference->side == JOIN_AS_BOTH)
        return put_both(join, difference, joined);
    if (right)
        return record_put_read(joined, &right->key, right->text, right->value);
    (void)record_remove(joined, &difference->key);
    return STATUS_OK;
}

/* As the right side has it: comes in whole from there, or goes. */
static enum status put_whole(const struct record_join *join,
                             const struct join_difference *difference, struct record *joined)
{
    const bool comes = join_has(join, JOIN_RIGHT, &difference->key, difference->what);
    const struct record *from = &join->record[comes ? JOIN_RIGHT : JOIN_LEFT];
    enum status status = STATUS_OK;

    for (size_t i = 0; i < from->count && status == STATUS_OK; i++) {
        const struct reading *reading = &from->readings[i];

        if (!join_is_in(&reading->key, difference))
            continue;
        if (comes)
            status = record_put_read(joined, &reading->key, reading->text, reading->value);
        else
            (void)record_remove(joined, &reading->key);
    }
    return status;
}

static enum status put_chosen(const struct record_join *join,
                              const struct join_difference *differences, size_t count,
                              struct record *joined)
{
    enum status status = STATUS_OK;

    for (size_t i = 0; i < count && status == STATUS_OK; i++) {
        const struct join_difference *difference = &differences[i];

        if (difference->side == JOIN_AS_LEFT || difference->side == JOIN_OPEN)
            continue;
        status = difference->what == JOIN_CELL ? put_cell(join, difference, joined)
                                               : put_whole(join, difference, joined);
    }
    return status;
}

/* What was left out leaves a gap, and passes and work lines are numbered without gaps. */
static enum status close_gaps(const struct record *from, struct record *ret_record)
{
    struct reading_key last = {.visit = 0};
    enum status status = STATUS_OK;
    int part = 0;

    record_init(ret_record);
    for (size_t i = 0; i < from->count && status == STATUS_OK; i++) {
        const struct reading *reading = &from->readings[i];
        struct reading_key key = reading->key;
        const bool same_list = key.visit == last.visit &&
                               field_get(key.field)->section == field_get(last.field)->section;

        if (!same_list)
            part = 0;
        if (key.part > 0 && !(same_list && key.part == last.part))
            part++;
        last = key;
        key.part = key.part > 0 ? part : 0;
        status = record_put_read(ret_record, &key, reading->text, reading->value);
    }
    if (status != STATUS_OK)
        record_done(ret_record);
    return status;
}

/* The later format of both, as what it is for may come from either. */
static enum status put_format(const struct record_join *join, struct record *joined)
{
    const struct reading_key key = reading_key_one(FIELD_FORMAT);
    const struct reading *right = record_find(&join->record[JOIN_RIGHT], &key);
    const double left = maybe_or(record_entered_one(joined, FIELD_FORMAT), 0);

    return right && right->value.state != READING_BAD && right->value.value > left
               ? record_put_read(joined, &key, right->text, right->value)
               : STATUS_OK;
}

/* A visit that says how many passes it has says so of those that it has now. */
static enum status put_pass_counts(const struct record_join *join, struct record *joined)
{
    enum status status = STATUS_OK;

    for (int visit = 0; status == STATUS_OK && record_next_visit(joined, &visit);) {
        const struct reading_key key = reading_key_visit(FIELD_VISIT_PASSES, visit);
        const int left = join->numbers.from[JOIN_LEFT][visit];
        const int was = left > 0 ? record_last_pass(join->version[JOIN_LEFT], left) : 0;
        const int now = record_last_pass(joined, visit);
        char memory[16];
        struct strbuf text = STRBUF(memory);

        if (left == 0 || now == was || !record_find(joined, &key))
            continue;
        strbuf_addf(&text, "%d", now);
        status = record_put(joined, &key, memory, true, NULL);
    }
    return status;
}

static enum status finish(const struct record_join *join, struct record *chosen,
                          struct record *ret_record)
{
    struct record joined;
    enum status status = put_format(join, chosen);

    if (status == STATUS_OK)
        status = close_gaps(chosen, &joined);
    if (status != STATUS_OK)
        return status;
    status = put_pass_counts(join, &joined);
    if (status == STATUS_OK)
        *ret_record = joined;
    else
        record_done(&joined);
    return status;
}

enum status record_join_make(const struct record_join *join,
                             const struct join_difference *differences, size_t count,
                             struct record *ret_record)
{
    struct record chosen;
    enum status status = record_copy(&join->record[JOIN_LEFT], &chosen);

    if (status != STATUS_OK)
        return status;
    status = put_chosen(join, differences, count, &chosen);
    if (status == STATUS_OK)
        status = finish(join, &chosen, ret_record);
    record_done(&chosen);
    return status;
}
