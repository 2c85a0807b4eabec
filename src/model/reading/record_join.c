/* SPDX-License-Identifier: MIT */
#include "model/reading/record_join_inside.h"

#include <string.h>

#include "model/reading/join_same.h"

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

bool join_has(const struct record_join *join, enum join_version version,
              const struct reading_key *key, enum join_what what)
{
    return join_exists(thing_of(join, version, key, what));
}

enum join_what join_find_whole(const struct record_join *join, const struct reading_key *key)
{
    const enum section section = field_get(key->field)->section;

    if (key->visit == 0)
        return JOIN_CELL;
    if (join_has(join, JOIN_LEFT, key, JOIN_VISIT) != join_has(join, JOIN_RIGHT, key, JOIN_VISIT))
        return JOIN_VISIT;
    const enum join_what part = section == SECTION_PASS   ? JOIN_PASS
                                : section == SECTION_WORK ? JOIN_WORK
                                                          : JOIN_CELL;
    return part != JOIN_CELL &&
                   join_has(join, JOIN_LEFT, key, part) != join_has(join, JOIN_RIGHT, key, part)
               ? part
               : JOIN_CELL;
}

bool join_is_in(const struct reading_key *key, const struct join_difference *difference)
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

size_t record_join_size(const struct record_join *join, const struct join_difference *difference,
                        enum join_version version)
{
    const struct record *record = &join->record[version];
    size_t size = 0;

    if (difference->what == JOIN_CELL)
        return record_join_reading(join, difference, version) ? 1 : 0;
    for (size_t i = 0; i < record->count; i++)
        size += join_is_in(&record->readings[i].key, difference);
    return size;
}

static const char *text_in(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_find(record, key);

    return reading ? reading->text : NULL;
}

const char *join_text(const struct record_join *join, enum join_version version,
                      const struct reading_key *key)
{
    return text_in(&join->record[version], key);
}

static bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* What the program counts by itself; nobody chooses that. */
static bool is_counted(const struct reading_key *key)
{
    return key->field == FIELD_FORMAT || key->field == FIELD_VISIT_PASSES;
}

/* --- what is proposed --- */

/* What the base had and one side has not was taken out there, or never heard of: that is for
 * somebody to decide. */
static enum join_side propose_cell(const struct record_join *join, const struct reading_key *key)
{
    const char *left = join_text(join, JOIN_LEFT, key), *right = join_text(join, JOIN_RIGHT, key);
    const char *base = join_text(join, JOIN_BASE, key);

    if (!left || !right)
        return base ? JOIN_OPEN : left ? JOIN_AS_LEFT : JOIN_AS_RIGHT;
    if (base && strcmp(left, base) == 0)
        return JOIN_AS_RIGHT;
    return base && strcmp(right, base) == 0 ? JOIN_AS_LEFT : JOIN_OPEN;
}

static enum join_side propose_whole(const struct record_join *join,
                                    const struct join_difference *difference)
{
    if (join_has(join, JOIN_BASE, &difference->key, difference->what))
        return JOIN_OPEN;
    return join_has(join, JOIN_LEFT, &difference->key, difference->what) ? JOIN_AS_LEFT
                                                                         : JOIN_AS_RIGHT;
}

static bool held_before(const struct record *earlier, const struct record_join *join,
                        const struct join_difference *difference)
{
    const enum join_version of = difference->side == JOIN_AS_LEFT ? JOIN_LEFT : JOIN_RIGHT;
    const struct reading_key *key = &difference->key;

    if (difference->what == JOIN_CELL)
        return same_text(text_in(earlier, key), join_text(join, of, key));
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

/* --- the state that both come from --- */

const struct reading_key *join_next_key(struct join_walk *walk)
{
    const bool has_a = walk->i < walk->a->count, has_b = walk->j < walk->b->count;

    if (!has_a && !has_b)
        return NULL;
    const struct reading *a = has_a ? &walk->a->readings[walk->i] : NULL;
    const struct reading *b = has_b ? &walk->b->readings[walk->j] : NULL;
    const bool takes_a = a && (!b || a->order <= b->order);

    walk->j += b && (!a || b->order <= a->order);
    walk->i += takes_a;
    return takes_a ? &a->key : &b->key;
}

bool join_knows(const struct record *record, const struct record *state,
                const struct record *before)
{
    struct join_walk walk = {.a = state, .b = before};
    int brought = 0, replaced = 0, differ = 0;

    for (const struct reading_key *key; (key = join_next_key(&walk)) != NULL;) {
        const char *new = text_in(state, key), *old = text_in(before, key);
        const char *text = text_in(record, key);

        if (is_counted(key) || same_text(new, old))
            continue;
        differ++;
        brought += same_text(text, new);
        replaced += same_text(text, old);
    }
    return brought > replaced || differ == 0;
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
    struct join_difference found = {.what = join_find_whole(join, key), .key = *key};

    if (found.what == JOIN_CELL) {
        if (is_counted(key) ||
            same_text(join_text(join, JOIN_LEFT, key), join_text(join, JOIN_RIGHT, key)))
            return;
        found.side = propose_cell(join, key);
        add(listing, &found);
        return;
    }
    /* Its changes of the instrument come before the visit's own; they are not shown for it. */
    if (section_is_of_instrument(field_get(key->field)->section) ||
        (listing->whole.what != JOIN_CELL && join_is_in(key, &listing->whole)))
        return;
    found.side = propose_whole(join, &found);
    listing->whole = found;
    add(listing, &found);
}

size_t record_join_list(const struct record_join *join, struct join_difference *ret_differences,
                        size_t room)
{
    struct join_walk walk = {.a = &join->record[JOIN_LEFT], .b = &join->record[JOIN_RIGHT]};
    struct listing listing = {.join = join, .differences = ret_differences, .room = room};

    for (const struct reading_key *key; (key = join_next_key(&walk)) != NULL;)
        look_at(&listing, key);
    return listing.count;
}

void record_join_choose_all(const struct record_join *join, enum join_side side,
                            struct join_difference *differences, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct reading_key *key = &differences[i].key;
        const bool both = differences[i].what == JOIN_CELL && join_text(join, JOIN_LEFT, key) &&
                          join_text(join, JOIN_RIGHT, key);

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
