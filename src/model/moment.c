/* SPDX-License-Identifier: MIT */
#include "model/moment.h"

#include <string.h>

#include "base/num.h"
#include "model/day.h"

/* A number of `digits` digits at text; false when there is none. */
static bool take(const char *text, size_t digits, int *ret_number)
{
    return strlen(text) >= digits && num_count(text, digits, 9999, ret_number) == STATUS_OK;
}

static bool find_day(const char *date, double *ret_days)
{
    struct day day;

    if (!day_parse(date, &day))
        return false;
    *ret_days = day_number(&day);
    return true;
}

static bool find_fraction(const char *time, double *ret_fraction)
{
    int hour, minute, second = 0;

    if (!take(time, 2, &hour) || time[2] != ':' || !take(time + 3, 2, &minute))
        return false;
    if (time[5] == ':' && !take(time + 6, 2, &second))
        return false;
    *ret_fraction = (3600.0 * hour + 60.0 * minute + second) / 86400;
    return true;
}

bool moment_find(const char *date, const char *time, double *ret_days)
{
    double days, fraction = 0;

    if (time && strlen(time) > 10 && time[10] == 'T') {
        date = time;
        time += 11;
    }
    if (!date || !find_day(date, &days) || (time && !find_fraction(time, &fraction)))
        return false;
    *ret_days = days + fraction;
    return true;
}

static const char *good_text(const struct record *record, const struct reading_key *key)
{
    const struct reading *reading = record_get(record, key);

    return reading && reading->value.state != READING_BAD ? reading->text : NULL;
}

bool moment_of(const struct record *record, const struct reading_key *key, double *ret_days)
{
    const struct reading_key date = reading_key_visit(FIELD_VISIT_DATE, key->visit);
    const char *time = good_text(record, key);

    if (!time && key->field != FIELD_PASS_TIME)
        return false;
    return moment_find(good_text(record, &date), time, ret_days);
}
