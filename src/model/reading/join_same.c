/* SPDX-License-Identifier: MIT */
#include "model/reading/join_same.h"

#include <string.h>

#include "model/reading/work_line.h"

static bool is_text(const char *a, const char *b)
{
    return a && b && strcmp(a, b) == 0;
}

static const char *text_of(struct join_thing thing, enum field_id field)
{
    const struct reading_key key = reading_key_pass(field, thing.visit, thing.part);

    return record_text(thing.record, &key);
}

bool join_exists(struct join_thing thing)
{
    static const enum field_id first[SECTION_COUNT_] = {[SECTION_VISIT] = FIELD_VISIT_DATE,
                                                        [SECTION_PASS] = FIELD_PASS_LABEL,
                                                        [SECTION_WORK] = FIELD_WORK_KIND};
    const struct reading_key key = reading_key_pass(first[thing.section], thing.visit, thing.part);
    const size_t at = record_lower_bound(thing.record, &key);

    if (at == thing.record->count)
        return false;
    const struct reading_key *found = &thing.record->readings[at].key;
    return found->visit == thing.visit &&
           (thing.section == SECTION_VISIT ||
            (found->part == thing.part && field_get(found->field)->section == thing.section));
}

/* --- passes and work lines --- */

enum join_likeness join_compare_parts(struct join_thing a, struct join_thing b)
{
    const bool is_pass = a.section == SECTION_PASS;
    const enum field_id time = is_pass ? FIELD_PASS_TIME : FIELD_WORK_TIME;
    const char *time_a = text_of(a, time), *time_b = text_of(b, time);

    if (!is_pass && strcmp(work_line_text(a.record, WORK_KIND, a.visit, a.part),
                           work_line_text(b.record, WORK_KIND, b.visit, b.part)) != 0)
        return JOIN_OTHER;
    if (!time_a || !time_b)
        return JOIN_UNSAID;
    return strcmp(time_a, time_b) == 0 ? JOIN_SAME : JOIN_OTHER;
}

/* --- visits --- */

static struct join_thing pass_of(struct join_thing visit, int pass)
{
    visit.section = SECTION_PASS;
    visit.part = pass;
    return visit;
}

static bool has_time(struct join_thing visit)
{
    for (int pass = record_last_pass(visit.record, visit.visit); pass > 0; pass--)
        if (text_of(pass_of(visit, pass), FIELD_PASS_TIME))
            return true;
    return false;
}

static bool has_pass_like(struct join_thing pass, struct join_thing visit)
{
    for (int other = record_last_pass(visit.record, visit.visit); other > 0; other--)
        if (join_compare_parts(pass, pass_of(visit, other)) == JOIN_SAME)
            return true;
    return false;
}

static bool is_other_day(struct join_thing a, struct join_thing b)
{
    const char *day_a = text_of(a, FIELD_VISIT_DATE), *day_b = text_of(b, FIELD_VISIT_DATE);

    return day_a && day_b && strcmp(day_a, day_b) != 0;
}

static bool shares_time(struct join_thing a, struct join_thing b)
{
    for (int pass = record_last_pass(a.record, a.visit); pass > 0; pass--)
        if (has_pass_like(pass_of(a, pass), b))
            return true;
    return false;
}

bool join_shares_pass(struct join_thing a, struct join_thing b)
{
    const bool may_be = a.visit == b.visit
                            ? !is_other_day(a, b)
                            : is_text(text_of(a, FIELD_VISIT_DATE), text_of(b, FIELD_VISIT_DATE));

    return may_be && shares_time(a, b);
}

bool join_same_visit(struct join_thing a, struct join_thing b)
{
    if (join_shares_pass(a, b))
        return true;
    return a.visit == b.visit && !is_other_day(a, b) && !(has_time(a) && has_time(b));
}

bool join_is_visit_of(struct join_thing earlier, struct join_thing visit)
{
    if (earlier.visit != visit.visit || !join_exists(earlier))
        return false;
    /* Its day may have been corrected; but a visit of another day with other passes was begun
     * under a number that had become free. */
    return !(is_other_day(earlier, visit) && has_time(earlier) && has_time(visit)) ||
           shares_time(earlier, visit);
}
