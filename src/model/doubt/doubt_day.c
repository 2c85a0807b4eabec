/* SPDX-License-Identifier: MIT */
#include "model/doubt/doubt_day.h"

#include <string.h>

#include "model/reading/moment.h"

/* Whether it is a later day of the visit itself: when it is to be ready, or went back. */
static bool is_later_day(enum field_id field)
{
    return field == FIELD_VISIT_PROMISED || field == FIELD_VISIT_HANDED_OVER;
}

/* The nearest visit with a date that the day is on the wrong side of; 0 for none. */
static int find_disorder(const struct record *record, const struct reading_key *key, double day)
{
    const int visit = key->visit, last = record_last_visit(record);

    if (is_later_day(key->field)) {
        const struct maybe began = moment_of_day(record, FIELD_VISIT_DATE, visit);

        return began.given && day < began.value ? visit : 0;
    }
    if (key->field != FIELD_VISIT_DATE)
        return 0;
    for (int earlier = visit - 1; earlier > 0; earlier--) {
        const struct maybe other = moment_of_day(record, FIELD_VISIT_DATE, earlier);

        if (other.given)
            return other.value > day ? earlier : 0;
    }
    for (int later = visit + 1; later <= last; later++) {
        const struct maybe other = moment_of_day(record, FIELD_VISIT_DATE, later);

        if (other.given)
            return other.value < day ? later : 0;
    }
    return 0;
}

struct doubt doubt_of_day(const struct record *record, const struct reading_key *key,
                          const char *text, const struct doubt_about *about)
{
    const double long_ago = 50 * 365.25;
    struct doubt doubt = {.kind = DOUBT_NONE};
    char date[11] = "";

    /* A time may bring its own date along, in front. */
    memcpy(date, text, strlen(text) < 10 ? strlen(text) : 10);
    const struct maybe day = moment_find(date, NULL), today = moment_find(about->today, NULL);
    if (!day.given)
        return doubt;
    doubt.visit = find_disorder(record, key, day.value);
    if (doubt.visit > 0)
        doubt.kind = DOUBT_ORDER;
    if (today.given && day.value > today.value + field_get(key->field)->usual_max)
        doubt.kind = DOUBT_FUTURE;
    else if (today.given && day.value < today.value - long_ago)
        doubt.kind = DOUBT_LONG_AGO;
    return doubt;
}

struct doubt doubt_of_year(const char *text, const struct doubt_about *about)
{
    const int oldest = 1500; /* nothing older is set up on a bench */
    struct doubt doubt = {.kind = DOUBT_NONE};
    int year, this_year;

    /* A digit too few or too many is no other text. */
    if (strlen(text) < 3 || strlen(text) > 5 ||
        num_count(text, strlen(text), 99999, &year) != STATUS_OK)
        return doubt;
    if (year < oldest)
        doubt.kind = DOUBT_LONG_AGO;
    else if (strlen(about->today) >= 4 &&
             num_count(about->today, 4, 9999, &this_year) == STATUS_OK && year > this_year)
        doubt.kind = DOUBT_FUTURE;
    return doubt;
}
