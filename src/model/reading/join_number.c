/* SPDX-License-Identifier: MIT */
#include "model/reading/join_number.h"

#include <string.h>

#include "model/reading/join_same.h"

/* How far a visit, a pass or a work line is looked for from where it would be. It bounds the time
 * that a record of ten thousand of them takes. */
enum { NEAR = 64 };

struct numbering {
    struct join_numbers *numbers;
    const struct record *version[JOIN_VERSIONS_];
    struct record *record; /* of each version, renumbered */
};

static int at_most(int a, int b)
{
    return a < b ? a : b;
}

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
    const int end = at_most(right + NEAR, VISITS_MAX);

    for (int left = right > NEAR ? right - NEAR : 1; left <= end; left++)
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

/* Whether a visit on the right comes before one on the left: it is of an earlier day. */
static bool is_earlier(const struct numbering *numbering, int right, int left)
{
    const char *right_day = day_of(numbering->version[JOIN_RIGHT], right);
    const char *left_day = day_of(numbering->version[JOIN_LEFT], left);

    return !right_day || (left_day && strcmp(right_day, left_day) < 0);
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
    const int end = at_most(left + NEAR, VISITS_MAX);

    for (int right = left > NEAR ? left - NEAR : 1; right <= end; right++)
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

/* --- passes and work lines of one visit --- */

static struct join_thing part_of(const struct numbering *numbering, enum join_version version,
                                 enum section section, int number, int part)
{
    return (struct join_thing){.record = numbering->version[version],
                               .section = section,
                               .visit = numbering->numbers->from[version][number],
                               .part = part};
}

/* Passes or work lines being put in one order: where both versions stand. */
struct aligning {
    struct numbering *numbering;
    enum section section;
    int number; /* of the visit */
    int last[JOIN_VERSIONS_], at[JOIN_VERSIONS_];
};

static struct join_thing thing_at(const struct aligning *aligning, enum join_version version,
                                  int part)
{
    return part_of(aligning->numbering, version, aligning->section, aligning->number, part);
}

/* The next one that exists, from `part`; last + 1 past the last. */
static int next_part(const struct aligning *aligning, enum join_version version, int part)
{
    while (part <= aligning->last[version] && !join_exists(thing_at(aligning, version, part)))
        part++;
    return part;
}

/* Whether one further on in `version` is surely the same as the other version's next one. */
static bool is_ahead(const struct aligning *aligning, enum join_version version,
                     enum join_version other)
{
    const struct join_thing wanted = thing_at(aligning, other, aligning->at[other]);
    const int end = at_most(aligning->at[version] + NEAR, aligning->last[version]);

    for (int part = aligning->at[version] + 1; part <= end; part++)
        if (join_compare_parts(wanted, thing_at(aligning, version, part)) == JOIN_SAME)
            return true;
    return false;
}

/* Whether the base knows both under this number; then one of them was given another time. */
static bool is_of_base(const struct aligning *aligning)
{
    const int part = aligning->at[JOIN_LEFT];
    const struct join_thing base = thing_at(aligning, JOIN_BASE, part);

    return part == aligning->at[JOIN_RIGHT] && part <= aligning->last[JOIN_BASE] &&
           (join_compare_parts(base, thing_at(aligning, JOIN_LEFT, part)) == JOIN_SAME ||
            join_compare_parts(base, thing_at(aligning, JOIN_RIGHT, part)) == JOIN_SAME);
}

/* The earlier time first; what has none keeps its place. */
static bool is_left_first(const struct aligning *aligning)
{
    const enum field_id field =
        aligning->section == SECTION_PASS ? FIELD_PASS_TIME : FIELD_WORK_TIME;
    const char *time[2];

    for (enum join_version of = JOIN_LEFT; of <= JOIN_RIGHT; of++) {
        const struct join_thing thing = thing_at(aligning, of, aligning->at[of]);
        const struct reading_key key = {.field = field, .visit = thing.visit, .part = thing.part};

        time[of] = record_text(thing.record, &key);
    }
    return !time[0] || !time[1] || strcmp(time[0], time[1]) <= 0;
}

/* Which of both come next: JOIN_LEFT or JOIN_RIGHT alone, or as one (JOIN_BASE). */
static enum join_version find_next(const struct aligning *aligning)
{
    if (aligning->at[JOIN_LEFT] > aligning->last[JOIN_LEFT])
        return JOIN_RIGHT;
    if (aligning->at[JOIN_RIGHT] > aligning->last[JOIN_RIGHT])
        return JOIN_LEFT;
    const enum join_likeness like =
        join_compare_parts(thing_at(aligning, JOIN_LEFT, aligning->at[JOIN_LEFT]),
                           thing_at(aligning, JOIN_RIGHT, aligning->at[JOIN_RIGHT]));

    if (like == JOIN_SAME)
        return JOIN_BASE;
    if (is_ahead(aligning, JOIN_RIGHT, JOIN_LEFT))
        return JOIN_RIGHT;
    if (is_ahead(aligning, JOIN_LEFT, JOIN_RIGHT))
        return JOIN_LEFT;
    if (like == JOIN_UNSAID || is_of_base(aligning))
        return JOIN_BASE;
    return is_left_first(aligning) ? JOIN_LEFT : JOIN_RIGHT;
}

static void take(struct aligning *aligning, enum join_version version)
{
    struct join_numbers *numbers = aligning->numbering->numbers;
    const int part = aligning->at[version];

    numbers->part_to[version][part] = (short)numbers->last_part;
    numbers->part_from[version][numbers->last_part] = (short)part;
    aligning->at[version] = next_part(aligning, version, part + 1);
}

static int most_parts(enum section section)
{
    return section == SECTION_PASS ? PASSES_MAX : WORKS_MAX;
}

static enum status align(struct aligning *aligning)
{
    struct join_numbers *numbers = aligning->numbering->numbers;

    while (aligning->at[JOIN_LEFT] <= aligning->last[JOIN_LEFT] ||
           aligning->at[JOIN_RIGHT] <= aligning->last[JOIN_RIGHT]) {
        const enum join_version next = find_next(aligning);

        if (numbers->last_part == most_parts(aligning->section))
            return STATUS_TOO_LARGE;
        numbers->last_part++;
        if (next != JOIN_RIGHT)
            take(aligning, JOIN_LEFT);
        if (next != JOIN_LEFT)
            take(aligning, JOIN_RIGHT);
    }
    return STATUS_OK;
}

/* Whether a part of the base has become this one. */
static bool is_part_of(const struct aligning *aligning, int base, int number)
{
    const struct join_numbers *numbers = aligning->numbering->numbers;
    const int left = numbers->part_from[JOIN_LEFT][number];
    const int right = numbers->part_from[JOIN_RIGHT][number];

    if (left == base && right == base)
        return true;
    for (enum join_version of = JOIN_LEFT; of <= JOIN_RIGHT; of++) {
        const int part = numbers->part_from[of][number];
        const enum join_likeness like =
            part > 0 ? join_compare_parts(thing_at(aligning, JOIN_BASE, base),
                                          thing_at(aligning, of, part))
                     : JOIN_OTHER;

        if (like == JOIN_SAME || (like == JOIN_UNSAID && part == base))
            return true;
    }
    return false;
}

static void align_base(struct aligning *aligning)
{
    struct join_numbers *numbers = aligning->numbering->numbers;
    int from = 1;

    for (int part = 1; part <= aligning->last[JOIN_BASE]; part++) {
        const int end = at_most(from + NEAR, numbers->last_part);

        for (int number = from; number <= end && numbers->part_to[JOIN_BASE][part] == 0; number++)
            if (join_exists(thing_at(aligning, JOIN_BASE, part)) &&
                is_part_of(aligning, part, number)) {
                numbers->part_to[JOIN_BASE][part] = (short)number;
                from = number + 1;
            }
    }
}

static void forget_parts(const struct aligning *aligning)
{
    struct join_numbers *numbers = aligning->numbering->numbers;
    const int most = at_most(aligning->last[JOIN_LEFT] + aligning->last[JOIN_RIGHT], WORKS_MAX);

    for (int of = 0; of < JOIN_VERSIONS_; of++) {
        memset(numbers->part_to[of], 0,
               sizeof numbers->part_to[of][0] * (size_t)(aligning->last[of] + 1));
        memset(numbers->part_from[of], 0, sizeof numbers->part_from[of][0] * (size_t)(most + 1));
    }
}

static enum status number_parts(struct numbering *numbering, enum section section, int number)
{
    struct join_numbers *numbers = numbering->numbers;
    struct aligning aligning = {.numbering = numbering, .section = section, .number = number};

    numbers->last_part = 0;
    for (int of = 0; of < JOIN_VERSIONS_; of++) {
        const int visit = numbers->from[of][number];

        if (visit > 0)
            aligning.last[of] = section == SECTION_PASS
                                    ? record_last_pass(numbering->version[of], visit)
                                    : record_last_work(numbering->version[of], visit);
        aligning.at[of] = next_part(&aligning, (enum join_version)of, 1);
    }
    forget_parts(&aligning);
    const enum status status = align(&aligning);
    if (status == STATUS_OK)
        align_base(&aligning);
    return status;
}

/* --- the records --- */

static enum status put(struct record *record, const struct reading *reading, int visit, int part)
{
    struct reading_key key = reading->key;

    key.visit = visit;
    key.part = part;
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
    const struct reading_key first = {
        .field = section == SECTION_PASS ? FIELD_PASS_LABEL : FIELD_WORK_KIND, .visit = visit};
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
        status = number_parts(numbering, section, number);
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
