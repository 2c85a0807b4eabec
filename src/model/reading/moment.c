/* SPDX-License-Identifier: MIT */
#include "model/reading/moment.h"

#include <string.h>

#include "base/num.h"
#include "model/common/day.h"

/* A number of `digits` digits at text; false when there is none. */
static bool take(const char *text, size_t digits, int *ret_number)
{
    return strlen(text) >= digits && num_count(text, digits, 9999, ret_number) == STATUS_OK;
}

static struct maybe find_day(const char *date)
{
    struct day day;

    return date && day_parse(date, &day) ? maybe_given(day_number(&day)) : maybe_absent();
}

/* The part of the day that is over; none of it without a time. */
static struct maybe find_fraction(const char *time)
{
    int hour, minute, second = 0;

    if (!time)
        return maybe_given(0);
    if (!take(time, 2, &hour) || time[2] != ':' || !take(time + 3, 2, &minute))
        return maybe_absent();
    if (time[5] == ':' && !take(time + 6, 2, &second))
        return maybe_absent();
    return maybe_given((3600.0 * hour + 60.0 * minute + second) / 86400);
}

struct maybe moment_find(const char *date, const char *time)
{
    if (time && strlen(time) > 10 && time[10] == 'T') {
        date = time;
        time += 11;
    }
    const struct maybe days = find_day(date), fraction = find_fraction(time);

    if (!days.given || !fraction.given)
        return maybe_absent();
    return maybe_given(days.value + fraction.value);
}

static const char *good_text(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_get(record, key);

    return reading && reading->value.state != READING_BAD ? reading->text : NULL;
}

struct maybe moment_of(const struct record *record, const struct reading_key *key)
{
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, key->visit);
    const char *time = good_text(record, key);

    if (!time && key->field != FIELD_PASS_TIME)
        return maybe_absent();
    return moment_find(good_text(record, &date), time);
}

struct maybe moment_of_day(const struct record *record, enum field_id date, int visit)
{
    const struct reading_key key = reading_key_visit(date, visit);

    return moment_find(good_text(record, &key), NULL);
}
