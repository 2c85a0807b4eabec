/* SPDX-License-Identifier: MIT */
#include "model/reading/reading_key.h"

/* By field: keys are compared far too often to call for each. */
static const unsigned char section_of[FIELD_COUNT_] = {
#define FIELD(id, section, ...) [FIELD_##id] = SECTION_##section,
#include "model/reading/field_table.h"
#undef FIELD
};

struct reading_key reading_key_one(enum field_id field)
{
    return reading_key_pass_at(field, 0, 0, 0, 0);
}

struct reading_key reading_key_string(enum field_id field, int string)
{
    return reading_key_pass_at(field, 0, 0, string, 0);
}

struct reading_key reading_key_visit(enum field_id field, int visit)
{
    return reading_key_pass_at(field, visit, 0, 0, 0);
}

struct reading_key reading_key_pass(enum field_id field, int visit, int pass)
{
    return reading_key_pass_at(field, visit, pass, 0, 0);
}

struct reading_key reading_key_pass_at(enum field_id field, int visit, int pass, int string,
                                       int fret)
{
    return (struct reading_key){.field = field,
                                .visit = (int16_t)visit,
                                .part = (int16_t)pass,
                                .string = (int8_t)string,
                                .fret = (int8_t)fret};
}

/* Each number beside the next, with room for one more than its greatest. */
enum {
    FRET_BITS = 6,
    STRING_BITS = 5,
    FIELD_BITS = 8,
    PART_BITS = 14,
    SECTION_BITS = 4,
    VISIT_BITS = 14,
};
_Static_assert(FRETS_MAX + 1 < 1 << FRET_BITS && STRINGS_MAX + 1 < 1 << STRING_BITS &&
                   FIELD_COUNT_ < 1 << FIELD_BITS && PASSES_MAX + 1 < 1 << PART_BITS &&
                   WORKS_MAX + 1 < 1 << PART_BITS && SECTION_COUNT_ < 1 << SECTION_BITS &&
                   VISITS_MAX + 1 < 1 << VISIT_BITS,
               "a number of a key has no room");
_Static_assert(VISIT_BITS < 16 && PART_BITS < 16 && STRING_BITS < 8 && FRET_BITS < 8,
               "nor has its member");

static uint64_t beside(uint64_t order, int number, int bits)
{
    return order << bits | (uint64_t)(number > 0 ? number : 0);
}

static enum section section_of_key(const struct reading_key *key)
{
    return (enum section)section_of[key->field];
}

bool reading_key_is_change(const struct reading_key *key)
{
    return key->visit > 0 && section_is_of_instrument(section_of_key(key));
}

bool reading_key_is_same_fact(const struct reading_key *a, const struct reading_key *b)
{
    const bool same_visit = a->visit == b->visit || section_is_of_instrument(section_of_key(a));

    return a->field == b->field && same_visit && a->part == b->part && a->string == b->string &&
           a->fret == b->fret;
}

struct reading_key reading_key_as_of(struct reading_key key, int visit)
{
    if (section_is_of_instrument(section_of_key(&key)))
        key.visit = (int16_t)visit;
    return key;
}

/* A visit's own keys come before its passes, and its passes before its work, and the next visit
 * after all of them. */
static uint64_t order_in_visits(const struct reading_key *key)
{
    uint64_t order = beside(0, key->visit, VISIT_BITS);

    order = beside(order, section_of[key->field], SECTION_BITS);
    order = beside(order, key->part, PART_BITS);
    order = beside(order, (int)key->field, FIELD_BITS);
    order = beside(order, key->string, STRING_BITS);
    return beside(order, key->fret, FRET_BITS);
}

/* With the visit last, what holds in a visit is the last change that is not beyond it. */
static uint64_t order_of_fact(const struct reading_key *key)
{
    uint64_t order = beside(0, (int)key->field, FIELD_BITS);

    order = beside(order, key->string, STRING_BITS);
    order = beside(order, key->fret, FRET_BITS);
    return beside(order, key->visit, VISIT_BITS);
}

uint64_t reading_key_order(const struct reading_key *key)
{
    enum {
        REST_BITS = VISIT_BITS + SECTION_BITS + PART_BITS + FIELD_BITS + STRING_BITS + FRET_BITS
    };
    const int section = section_of[key->field];
    /* Sections up to the visits come in their own order; all of a visit's are one group. */
    const bool fact = section < SECTION_VISIT;
    uint64_t order = (uint64_t)(fact ? section : SECTION_VISIT);

    order = beside(order, section == SECTION_STRING ? key->string : 0, STRING_BITS);
    return order << REST_BITS | (fact ? order_of_fact(key) : order_in_visits(key));
}

int reading_key_compare(const struct reading_key *a, const struct reading_key *b)
{
    const uint64_t x = reading_key_order(a), y = reading_key_order(b);

    return (x > y) - (x < y);
}

static int compare(int a, int b)
{
    return (a > b) - (a < b);
}

static int compare_fields(const struct reading_key *a, const struct reading_key *b)
{
    int order = compare((int)a->field, (int)b->field);

    if (!order)
        order = compare(a->string, b->string);
    return order ? order : compare(a->fret, b->fret);
}

/* What stands behind the visit: its own keys, its changes in their sections' order, its passes, and
 * its work. */
static int compare_in_visit(const struct reading_key *a, const struct reading_key *b)
{
    const int first_a = section_of_key(a) != SECTION_VISIT,
              first_b = section_of_key(b) != SECTION_VISIT;
    int order = compare(first_a, first_b);

    if (!order)
        order = compare((int)section_of_key(a), (int)section_of_key(b));
    return order ? order : compare(a->part, b->part);
}

static int string_of_section(const struct reading_key *key)
{
    return section_of_key(key) == SECTION_STRING ? key->string : 0;
}

/* Sections up to the visits come in their own order; all of a visit's, its changes too, are one
 * group. */
static int group_of(const struct reading_key *key)
{
    const enum section section = section_of_key(key);

    return section < SECTION_VISIT && key->visit == 0 ? (int)section : SECTION_VISIT;
}

int reading_key_compare_written(const struct reading_key *a, const struct reading_key *b)
{
    int order = compare(group_of(a), group_of(b));

    if (!order)
        order = compare(a->visit, b->visit);
    if (!order)
        order = compare_in_visit(a, b);
    if (!order)
        order = compare(string_of_section(a), string_of_section(b));
    return order ? order : compare_fields(a, b);
}
