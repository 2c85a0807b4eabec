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

/* The record being made, in order: which difference comes next, and which the last one was of that
 * is no cell. */
struct making {
    const struct record_join *join;
    const struct join_difference *next, *end, *whole;
    signed char visit[VISITS_MAX + 2]; /* the side (enum join_side) of a visit that one has alone */
    struct record *joined;
};

static void note_visits(struct making *making)
{
    for (const struct join_difference *d = making->next; d < making->end; d++)
        if (d->what == JOIN_VISIT)
            making->visit[d->key.visit] = (signed char)d->side;
}

/* A visit's changes of the instrument come before the visit itself, so its side is looked up. */
static enum join_side side_of(struct making *making, const struct reading_key *key)
{
    if (join_find_whole(making->join, key) == JOIN_VISIT)
        return (enum join_side)making->visit[key->visit];
    while (making->next < making->end && making->next->what == JOIN_VISIT)
        making->next++;
    if (making->next < making->end && reading_key_compare(key, &making->next->key) == 0) {
        const struct join_difference *found = making->next++;

        if (found->what == JOIN_CELL)
            return found->side;
        making->whole = found;
    }
    if (making->whole && join_is_in(key, making->whole))
        return making->whole->side;
    /* Both have it alike, or nobody chooses it. */
    return join_text(making->join, JOIN_LEFT, key) ? JOIN_AS_LEFT : JOIN_AS_RIGHT;
}

static enum status put_both(struct making *making, const struct reading_key *key)
{
    char memory[FIELD_TEXT_MAX + 1];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, join_text(making->join, JOIN_LEFT, key));
    strbuf_add(&text, between);
    strbuf_add(&text, join_text(making->join, JOIN_RIGHT, key));
    return record_put(making->joined, key, memory, true, NULL);
}

static enum status put(struct making *making, const struct reading_key *key)
{
    const struct join_difference cell = {.what = JOIN_CELL, .key = *key};
    const enum join_side side = side_of(making, key);
    const struct reading *reading =
        record_join_reading(making->join, &cell, side == JOIN_AS_RIGHT ? JOIN_RIGHT : JOIN_LEFT);

    if (side == JOIN_AS_BOTH && record_join_may_be_both(making->join, &cell))
        return put_both(making, key);
    return reading ? record_put_read(making->joined, key, reading->text, reading->value)
                   : STATUS_OK;
}

/* What was left out leaves a gap, and passes and work lines are numbered without gaps. */
static enum status close_gaps(const struct record *from, struct record *ret_record)
{
    struct reading_key last = {.visit = 0};
    enum status status = STATUS_OK;
    int16_t part = 0;

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
    struct join_walk walk = {.a = &join->record[JOIN_LEFT], .b = &join->record[JOIN_RIGHT]};
    struct record chosen;
    struct making making = {
        .join = join, .next = differences, .end = differences + count, .joined = &chosen};
    enum status status = STATUS_OK;

    record_init(&chosen);
    note_visits(&making);
    for (const struct reading_key *key;
         status == STATUS_OK && (key = join_next_key(&walk)) != NULL;)
        status = put(&making, key);
    if (status == STATUS_OK)
        status = finish(join, &chosen, ret_record);
    record_done(&chosen);
    return status;
}
