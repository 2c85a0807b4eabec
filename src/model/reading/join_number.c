/* SPDX-License-Identifier: MIT */
#include "base/least.h"
#include "model/reading/join_number_inside.h"

#include <string.h>

/* --- which visits are one --- */

static struct join_thing visit_of(const struct numbering *numbering, enum join_version version,
                                  int visit)
{
    return (struct join_thing){
        .record = numbering->version[version], .section = SECTION_VISIT, .visit = visit};
}

/* Marks the visits of a version with -1 where they have no number yet. Changes without a visit of
 * their own count, so that none is dropped. */
static void mark_visits(struct numbering *numbering, enum join_version version)
{
    short *to = numbering->numbers->to[version];
    const struct record *record = numbering->version[version];

    for (size_t i = 0; record && i < record->count; i++)
        if (record->readings[i].key.visit > 0)
            to[record->readings[i].key.visit] = -1;
}

static bool is_same(const struct numbering *numbering, int left, int right, bool by_pass)
{
    const struct join_thing a = visit_of(numbering, JOIN_LEFT, left);
    const struct join_thing b = visit_of(numbering, JOIN_RIGHT, right);

    if (by_pass)
        return join_shares_pass(a, b);
    if (left != right || join_same_visit(a, b))
        return left == right;
    const struct join_thing base = visit_of(numbering, JOIN_BASE, left);
    return base.record && join_is_visit_of(base, a) && join_is_visit_of(base, b);
}

static void find_partner(struct numbering *numbering, int right, bool by_pass)
{
    struct join_numbers *numbers = numbering->numbers;
    const int end = least_of(right + JOIN_NEAR, VISITS_MAX);

    for (int left = right > JOIN_NEAR ? right - JOIN_NEAR : 1; left <= end; left++)
        if (numbers->to[JOIN_LEFT][left] == -1 && is_same(numbering, left, right, by_pass)) {
            numbers->partner[right] = (short)left;
            numbers->to[JOIN_LEFT][left] = -2; /* taken */
            return;
        }
}

/* What was read together counts more than a number. */
static void find_partners(struct numbering *numbering)
{
    struct join_numbers *numbers = numbering->numbers;

    for (int round = 0; round < 2; round++)
        for (int right = 1; right <= VISITS_MAX; right++)
            if (numbers->to[JOIN_RIGHT][right] == -1 && numbers->partner[right] == 0)
                find_partner(numbering, right, round == 0);
}

/* --- the numbers of visits --- */

static enum status give_number(struct numbering *numbering, int left, int right)
{
    struct join_numbers *numbers = numbering->numbers;
    const int own = left > 0 ? left : right;
    const int number = own > numbers->last ? own : numbers->last + 1;

    if (number > VISITS_MAX)
        return STATUS_TOO_LARGE;
    numbers->last = number;
    numbers->from[JOIN_LEFT][number] = (short)left;
    numbers->from[JOIN_RIGHT][number] = (short)right;
    if (left > 0)
        numbers->to[JOIN_LEFT][left] = (short)number;
    if (right > 0)
        numbers->to[JOIN_RIGHT][right] = (short)number;
    return STATUS_OK;
}

static const char *day_of(const struct record *record, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, visit);

    return record_text(record, &key);
}

/* Whether a visit on the right comes before one on the left: by their days; where not both have
 * one, by their numbers. */
static bool is_earlier(const struct numbering *numbering, int right, int left)
{
    const char *right_day = day_of(numbering->version[JOIN_RIGHT], right);
    const char *left_day = day_of(numbering->version[JOIN_LEFT], left);

    return right_day && left_day ? strcmp(right_day, left_day) < 0 : right < left;
}

/* The next visit that the right version alone has, from *right; false past the last. */
static bool find_lone(const struct join_numbers *numbers, int *right)
{
    while (*right <= VISITS_MAX &&
           (numbers->to[JOIN_RIGHT][*right] == 0 || numbers->partner[*right] > 0))
        (*right)++;
    return *right <= VISITS_MAX;
}

static int partner_of(const struct join_numbers *numbers, int left)
{
    const int end = least_of(left + JOIN_NEAR, VISITS_MAX);

    for (int right = left > JOIN_NEAR ? left - JOIN_NEAR : 1; right <= end; right++)
        if (numbers->partner[right] == left)
            return right;
    return 0;
}

static enum status number_visits(struct numbering *numbering)
{
    struct join_numbers *numbers = numbering->numbers;
    enum status status = STATUS_OK;
    int right = 1;

    for (int left = 1; left <= VISITS_MAX && status == STATUS_OK; left++) {
        if (numbers->to[JOIN_LEFT][left] == 0)
            continue;
        while (status == STATUS_OK && find_lone(numbers, &right) &&
               is_earlier(numbering, right, left))
            status = give_number(numbering, 0, right++);
        if (status == STATUS_OK)
            status = give_number(numbering, left, partner_of(numbers, left));
    }
    while (status == STATUS_OK && find_lone(numbers, &right))
        status = give_number(numbering, 0, right++);
    return status;
}

/* A visit of the base gets the number of the visit that it has become. */
static void number_base(struct numbering *numbering)
{
    struct join_numbers *numbers = numbering->numbers;

    memset(numbers->to[JOIN_BASE], 0, sizeof numbers->to[JOIN_BASE]);
    memset(numbers->from[JOIN_BASE], 0, sizeof numbers->from[JOIN_BASE]);
    for (int visit = 0; record_next_visit(numbering->version[JOIN_BASE], &visit);)
        for (enum join_version of = JOIN_LEFT; of <= JOIN_RIGHT; of++) {
            const int number = numbers->to[of][visit];

            if (number <= 0 || numbers->from[JOIN_BASE][number] > 0 ||
                numbers->to[JOIN_BASE][visit] > 0 ||
                !join_is_visit_of(visit_of(numbering, JOIN_BASE, visit),
                                  visit_of(numbering, of, visit)))
                continue;
            numbers->to[JOIN_BASE][visit] = (short)number;
            numbers->from[JOIN_BASE][number] = (short)visit;
        }
}

/* --- the records --- */

static enum status put(struct record *record, const struct reading *reading, int visit, int part)
{
    struct reading_key key = reading->key;

    key.visit = (int16_t)visit;
    key.part = (int16_t)part;
    return record_put_read(record, &key, reading->text, reading->value);
}

/* What is not of a pass or a work line; of one visit, or of the instrument (number 0). */
static enum status put_own(struct numbering *numbering, enum join_version version, int number)
{
    const struct record *from = numbering->version[version];
    const struct join_numbers *numbers = numbering->numbers;
    const struct reading_key first =
        reading_key_visit(FIELD_VISIT_DATE, number > 0 ? numbers->from[version][number] : 1);
    const size_t begin = number > 0 ? record_lower_bound(from, &first) : 0;
    enum status status = STATUS_OK;

    for (size_t i = begin; i < from->count && status == STATUS_OK; i++) {
        const struct reading *reading = &from->readings[i];
        const int visit = reading->key.visit;
        const bool is_own =
            number > 0
                ? field_get(reading->key.field)->section == SECTION_VISIT && visit == first.visit
                : section_is_of_instrument(field_get(reading->key.field)->section);

        if (!is_own)
            break;
        const int to = visit > 0 ? numbers->to[version][visit] : 0;
        if (visit == 0 || to > 0)
            status = put(&numbering->record[version], reading, to, 0);
    }
    return status;
}

static enum status put_parts(struct numbering *numbering, enum join_version version,
                             enum section section, int number)
{
    const struct record *from = numbering->version[version];
    const int visit = numbering->numbers->from[version][number];
    const struct reading_key first =
        reading_key_visit(section == SECTION_PASS ? FIELD_PASS_LABEL : FIELD_WORK_KIND, visit);
    enum status status = STATUS_OK;

    for (size_t i = visit > 0 ? record_lower_bound(from, &first) : from->count;
         i < from->count && status == STATUS_OK; i++) {
        const struct reading_key *key = &from->readings[i].key;

        if (key->visit != visit || field_get(key->field)->section != section)
            break;
        const int part = numbering->numbers->part_to[version][key->part];
        if (part > 0)
            status = put(&numbering->record[version], &from->readings[i], number, part);
    }
    return status;
}

/* Puts what the wanted versions have of a visit into their records. */
static enum status put_visit(struct numbering *numbering, const bool wanted[JOIN_VERSIONS_],
                             int number)
{
    enum status status = STATUS_OK;

    for (int of = 0; of < JOIN_VERSIONS_ && status == STATUS_OK; of++)
        if (wanted[of] && numbering->numbers->from[of][number] > 0)
            status = put_own(numbering, (enum join_version)of, number);
    for (enum section section = SECTION_PASS; section <= SECTION_WORK && status == STATUS_OK;
         section++) {
        status = join_number_parts(numbering, section, number);
        for (int of = 0; of < JOIN_VERSIONS_ && status == STATUS_OK; of++)
            if (wanted[of])
                status = put_parts(numbering, (enum join_version)of, section, number);
    }
    return status;
}

/* A visit that was taken out leaves its number free. */
static bool is_used(const struct join_numbers *numbers, int number)
{
    return numbers->from[JOIN_LEFT][number] > 0 || numbers->from[JOIN_RIGHT][number] > 0;
}

static enum status put_all(struct numbering *numbering, const bool wanted[JOIN_VERSIONS_])
{
    enum status status = STATUS_OK;

    for (int of = 0; of < JOIN_VERSIONS_ && status == STATUS_OK; of++)
        if (wanted[of])
            status = put_own(numbering, (enum join_version)of, 0);
    for (int number = 1; number <= numbering->numbers->last && status == STATUS_OK; number++)
        if (is_used(numbering->numbers, number))
            status = put_visit(numbering, wanted, number);
    for (int of = 0; of < JOIN_VERSIONS_; of++)
        if (status != STATUS_OK)
            record_done(&numbering->record[of]);
    return status;
}

enum status join_number(struct join_numbers *numbers,
                        const struct record *const versions[JOIN_VERSIONS_],
                        struct record ret_records[JOIN_VERSIONS_])
{
    struct numbering numbering = {.numbers = numbers, .record = ret_records};
    const bool wanted[JOIN_VERSIONS_] = {true, true, versions[JOIN_BASE] != NULL};

    memset(numbers, 0, sizeof *numbers);
    for (int of = 0; of < JOIN_VERSIONS_; of++) {
        record_init(&ret_records[of]);
        numbering.version[of] = versions[of];
    }
    mark_visits(&numbering, JOIN_LEFT);
    mark_visits(&numbering, JOIN_RIGHT);
    find_partners(&numbering);
    const enum status status = number_visits(&numbering);
    if (status != STATUS_OK)
        return status;
    if (versions[JOIN_BASE])
        number_base(&numbering);
    return put_all(&numbering, wanted);
}

enum status join_number_earlier(struct join_numbers *numbers,
                                const struct record *const versions[JOIN_VERSIONS_],
                                const struct record *earlier, struct record *ret_record)
{
    static const bool wanted[JOIN_VERSIONS_] = {false, false, true};
    struct record records[JOIN_VERSIONS_] = {{.count = 0}};
    struct numbering numbering = {
        .numbers = numbers,
        .version = {versions[JOIN_LEFT], versions[JOIN_RIGHT], earlier},
        .record = records,
    };

    number_base(&numbering);
    const enum status status = put_all(&numbering, wanted);
    *ret_record = records[JOIN_BASE];
    return status;
}
