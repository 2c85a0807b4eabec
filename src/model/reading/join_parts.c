/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "base/least.h"
#include "model/reading/join_number_inside.h"

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
    const int end = least_of(aligning->at[version] + JOIN_NEAR, aligning->last[version]);

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
        const struct reading_key key = reading_key_pass(field, thing.visit, thing.part);

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
        const int end = least_of(from + JOIN_NEAR, numbers->last_part);

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
    const int most = least_of(aligning->last[JOIN_LEFT] + aligning->last[JOIN_RIGHT], WORKS_MAX);

    for (int of = 0; of < JOIN_VERSIONS_; of++) {
        memset(numbers->part_to[of], 0,
               sizeof numbers->part_to[of][0] * (size_t)(aligning->last[of] + 1));
        memset(numbers->part_from[of], 0, sizeof numbers->part_from[of][0] * (size_t)(most + 1));
    }
}

enum status join_number_parts(struct numbering *numbering, enum section section, int number)
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
