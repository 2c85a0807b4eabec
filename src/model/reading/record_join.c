/* SPDX-License-Identifier: MIT */
#include "model/reading/record_join.h"

#include <string.h>

#include "base/strbuf.h"
#include "model/reading/join_same.h"
#include "model/reading/record_access.h"

enum status record_join_begin(struct record_join *join, const struct record *left,
                              const struct record *right, const struct record *base)
{
    join->version[JOIN_LEFT] = left;
    join->version[JOIN_RIGHT] = right;
    join->version[JOIN_BASE] = base;
    return join_number(&join->numbers, join->version, join->record);
}

void record_join_done(struct record_join *join)
{
    for (int of = 0; of < JOIN_VERSIONS_; of++)
        record_done(&join->record[of]);
}

/* --- what a difference is of --- */

/* The visit, pass or work line that a key belongs to. */
static struct join_thing thing_of(const struct record_join *join, enum join_version version,
                                  const struct reading_key *key, enum join_what what)
{
    return (struct join_thing){.record = &join->record[version],
                               .section = what == JOIN_PASS   ? SECTION_PASS
                                          : what == JOIN_WORK ? SECTION_WORK
                                                              : SECTION_VISIT,
                               .visit = key->visit,
                               .part = what == JOIN_VISIT ? 0 : key->part};
}

static bool has(const struct record_join *join, enum join_version version,
                const struct reading_key *key, enum join_what what)
{
    return join_exists(thing_of(join, version, key, what));
}

/* The largest thing around a cell that only one side has; JOIN_CELL: both have all. */
static enum join_what find_whole(const struct record_join *join, const struct reading_key *key)
{
    const enum section section = field_get(key->field)->section;

    if (key->visit == 0)
        return JOIN_CELL;
    if (has(join, JOIN_LEFT, key, JOIN_VISIT) != has(join, JOIN_RIGHT, key, JOIN_VISIT))
        return JOIN_VISIT;
    const enum join_what part = section == SECTION_PASS   ? JOIN_PASS
                                : section == SECTION_WORK ? JOIN_WORK
                                                          : JOIN_CELL;
    return part != JOIN_CELL && has(join, JOIN_LEFT, key, part) != has(join, JOIN_RIGHT, key, part)
               ? part
               : JOIN_CELL;
}

static bool is_in(const struct reading_key *key, const struct join_difference *difference)
{
    const enum section section = field_get(key->field)->section;

    if (key->visit != difference->key.visit)
        return false;
    return difference->what == JOIN_VISIT ||
           (key->part == difference->key.part &&
            section == (difference->what == JOIN_PASS ? SECTION_PASS : SECTION_WORK));
}

const struct reading *record_join_reading(const struct record_join *join,
                                          const struct join_difference *difference,
                                          enum join_version version)
{
    return record_find(&join->record[version], &difference->key);
}

static const char *text_in(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_find(record, key);

    return reading ? reading->text : NULL;
}

static const char *text_at(const struct record_join *join, enum join_version version,
                           const struct reading_key *key)
{
    return text_in(&join->record[version], key);
}

static bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* --- what is proposed --- */

static enum join_side propose_cell(const struct record_join *join, const struct reading_key *key)
{
    const char *left = text_at(join, JOIN_LEFT, key), *right = text_at(join, JOIN_RIGHT, key);
    const char *base = text_at(join, JOIN_BASE, key);

    if (join->version[JOIN_BASE])
        return same_text(left, base)    ? JOIN_AS_RIGHT
               : same_text(right, base) ? JOIN_AS_LEFT
                                        : JOIN_OPEN;
    return !left ? JOIN_AS_RIGHT : !right ? JOIN_AS_LEFT : JOIN_OPEN;
}

/* What the base had has been taken out by one side: that is for somebody to decide. */
static enum join_side propose_whole(const struct record_join *join,
                                    const struct join_difference *difference)
{
    if (has(join, JOIN_BASE, &difference->key, difference->what))
        return JOIN_OPEN;
    return has(join, JOIN_LEFT, &difference->key, difference->what) ? JOIN_AS_LEFT : JOIN_AS_RIGHT;
}

static bool held_before(const struct record *earlier, const struct record_join *join,
                        const struct join_difference *difference)
{
    const enum join_version of = difference->side == JOIN_AS_LEFT ? JOIN_LEFT : JOIN_RIGHT;
    const struct reading_key *key = &difference->key;

    if (difference->what == JOIN_CELL)
        return same_text(text_in(earlier, key), text_at(join, of, key));
    struct join_thing whole = thing_of(join, of, key, difference->what);
    whole.record = earlier;
    return join_exists(whole);
}

enum status record_join_doubt(struct record_join *join, const struct record *earlier,
                              struct join_difference *differences, size_t count)
{
    struct record numbered;
    const enum status status =
        join_number_earlier(&join->numbers, join->version, earlier, &numbered);

    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < count; i++)
        if (!differences[i].asked && held_before(&numbered, join, &differences[i])) {
            differences[i].side = JOIN_OPEN;
            differences[i].asked = true;
        }
    record_done(&numbered);
    return STATUS_OK;
}

/* --- the list --- */

struct listing {
    const struct record_join *join;
    struct join_difference *differences;
    size_t count, room;
    struct join_difference whole; /* the last one listed that is no cell */
};

static void add(struct listing *listing, const struct join_difference *difference)
{
    if (listing->count < listing->room) {
        listing->differences[listing->count] = *difference;
        listing->differences[listing->count].asked = difference->side == JOIN_OPEN;
    }
    listing->count++;
}

static void look_at(struct listing *listing, const struct reading_key *key)
{
    const struct record_join *join = listing->join;
    struct join_difference found = {.what = find_whole(join, key), .key = *key};

    if (key->field == FIELD_FORMAT || key->field == FIELD_VISIT_PASSES)
        return;
    if (found.what == JOIN_CELL) {
        if (same_text(text_at(join, JOIN_LEFT, key), text_at(join, JOIN_RIGHT, key)))
            return;
        found.side = propose_cell(join, key);
        add(listing, &found);
        return;
    }
    /* Its changes of the instrument come before the visit's own; they are not shown for it. */
    if (section_is_of_instrument(field_get(key->field)->section) ||
        (listing->whole.what != JOIN_CELL && is_in(key, &listing->whole)))
        return;
    found.side = propose_whole(join, &found);
    listing->whole = found;
    add(listing, &found);
}

size_t record_join_list(const struct record_join *join, struct join_difference *ret_differences,
                        size_t room)
{
    const struct record *left = &join->record[JOIN_LEFT], *right = &join->record[JOIN_RIGHT];
    struct listing listing = {.join = join, .differences = ret_differences, .room = room};
    size_t i = 0, j = 0;

    while (i < left->count || j < right->count) {
        const uint64_t none = UINT64_MAX;
        const uint64_t x = i < left->count ? left->readings[i].order : none;
        const uint64_t y = j < right->count ? right->readings[j].order : none;

        look_at(&listing, x <= y ? &left->readings[i].key : &right->readings[j].key);
        i += x <= y;
        j += y <= x;
    }
    return listing.count;
}

void record_join_choose_all(const struct record_join *join, enum join_side side,
                            struct join_difference *differences, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct reading_key *key = &differences[i].key;
        const bool both = differences[i].what == JOIN_CELL && text_at(join, JOIN_LEFT, key) &&
                          text_at(join, JOIN_RIGHT, key);

        if (both || differences[i].asked)
            differences[i].side = side;
    }
}

size_t join_count_open(const struct join_difference *differences, size_t count)
{
    size_t open = 0;

    for (size_t i = 0; i < count; i++)
        open += differences[i].side == JOIN_OPEN;
    return open;
}

/* --- the joined record --- */

static const char between[] = "; ";

bool record_join_may_be_both(const struct record_join *join,
                             const struct join_difference *difference)
{
    enum { NOTE_BYTES_MIN = 2000 }; /* no name or number is allowed to be so long */
    const struct field *field = field_get(difference->key.field);
    const char *left = text_at(join, JOIN_LEFT, &difference->key);
    const char *right = text_at(join, JOIN_RIGHT, &difference->key);

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
    strbuf_add(&text, text_at(join, JOIN_LEFT, &difference->key));
    strbuf_add(&text, between);
    strbuf_add(&text, text_at(join, JOIN_RIGHT, &difference->key));
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
    const bool comes = has(join, JOIN_RIGHT, &difference->key, difference->what);
    const struct record *from = &join->record[comes ? JOIN_RIGHT : JOIN_LEFT];
    enum status status = STATUS_OK;

    for (size_t i = 0; i < from->count && status == STATUS_OK; i++) {
        const struct reading *reading = &from->readings[i];

        if (!is_in(&reading->key, difference))
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
