/* SPDX-License-Identifier: MIT */
#include "model/doubt_row.h"

#include <math.h>
#include <stdlib.h>

/* By how much two readings of one row may differ (doubt.h). */
struct slack {
    double mm, share; /* the larger counts; 0: nothing stands beside it */
    double slope_mm;  /* for each string farther, where nobody can tell the row's slope */
    double end_mm;    /* for each string beyond the row's end, where it can be told */
};

static struct slack slack_of(enum field_id field)
{
    switch (field) {
    case FIELD_NUT_GAP:
        return (struct slack){0.25, 1.0 / 3, 0.05, 0.05};
    case FIELD_ACTION:
        return (struct slack){0.7, 0.25, 0.3, 0.08};
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
        return (struct slack){2, 0, 0, 0};
    case FIELD_TARGET_ACTION_BASS:
    case FIELD_TARGET_ACTION_TREBLE:
        return (struct slack){1.5, 0, 0, 0};
    case FIELD_TARGET_GAP_BASS:
    case FIELD_TARGET_GAP_TREBLE:
        return (struct slack){0.3, 0, 0, 0};
    default:
        return (struct slack){0, 0, 0, 0};
    }
}

/* Around what is read on one string, or on two that go with each other and all between. */
static bool is_around(const struct slack *slack, double value, double a, double b, double more_mm)
{
    const double rounding = 1e-9;
    const double err = fmax(slack->mm, slack->share * fmax(fabs(a), fabs(b))) + more_mm + rounding;

    return value >= fmin(a, b) - err && value <= fmax(a, b) + err;
}

/* The nearest string that was read, from `string` on in steps of `by`; 0 for none. */
static int next_read(const struct entered *read, int strings, int string, int by)
{
    for (string += by; string >= 1 && string <= strings; string += by)
        if (read[string].given)
            return string;
    return 0;
}

/* The strings to compare with: one on either side, at an end the two nearest; 0 for none. */
struct beside {
    int near, far;
    bool is_end;
};

static struct beside find_beside(const struct entered *read, int strings, int string)
{
    const int below = next_read(read, strings, string, -1);
    const int above = next_read(read, strings, string, 1);
    struct beside beside = {.near = below ? below : above, .is_end = !below || !above};

    if (!beside.is_end) {
        const bool above_is_nearer = above - string < string - below;

        beside.near = above_is_nearer ? above : below;
        beside.far = above_is_nearer ? below : above;
    } else if (beside.near) {
        beside.far = next_read(read, strings, beside.near, beside.near > string ? 1 : -1);
    }
    return beside;
}

/* On one string, the slope of the row unknown. */
static bool fits_one(const struct slack *slack, const struct entered *read, int string, int other,
                     double value, int adjacent)
{
    const int away = abs(other - string) - adjacent;

    return is_around(slack, value, read[other].value, read[other].value, slack->slope_mm * away);
}

/* Beyond the row's end the nearest string decides, with the slope from the next one on. */
static bool fits_end(const struct slack *slack, const struct entered *read, int string,
                     const struct beside *beside, double value)
{
    const double near = read[beside->near].value;
    const double slope = (near - read[beside->far].value) / abs(beside->near - beside->far);
    const int away = abs(beside->near - string);

    return is_around(slack, value, near, near + slope * away, slack->end_mm * away);
}

static bool fits_row(enum field_id field, const struct entered *read, int string,
                     const struct beside *beside, double value)
{
    const struct slack slack = slack_of(field);
    const int near = beside->near, far = beside->far;

    if (near == 0)
        return true;
    if (far == 0)
        return fits_one(&slack, read, string, near, value, 0);
    if (!beside->is_end)
        return fits_one(&slack, read, string, near, value, 1) ||
               fits_one(&slack, read, string, far, value, 1);
    /* Where the two do not go with each other, one of them truly is off. */
    if (fits_one(&slack, read, far, near, read[far].value, 0))
        return fits_end(&slack, read, string, beside, value);
    return fits_one(&slack, read, string, near, value, 0) ||
           fits_one(&slack, read, string, far, value, 0);
}

bool doubt_is_odd_one(enum field_id field, const struct entered *read, int strings, int string)
{
    const struct beside beside = find_beside(read, strings, string);

    return read[string].given && beside.far > 0 &&
           !fits_row(field, read, string, &beside, read[string].value);
}

static struct doubt doubt_strings(const struct record *record, const struct reading_key *key,
                                  double value, bool *ret_beside)
{
    struct entered read[STRINGS_MAX + 1] = {{.given = false}};
    struct reading_key each = *key;

    for (each.string = 1; each.string <= STRINGS_MAX; each.string++)
        read[each.string] = record_entered(record, each);
    const struct beside beside = find_beside(read, STRINGS_MAX, key->string);
    *ret_beside = beside.near > 0;
    if (fits_row(key->field, read, key->string, &beside, value))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){
        .kind = DOUBT_BESIDE, .beside = read[beside.near].value, .string = beside.near};
}

static struct doubt doubt_other_end(const struct record *record, const struct reading_key *key,
                                    enum field_id other, double value, bool *ret_beside)
{
    const struct slack slack = slack_of(key->field);
    struct reading_key other_key = *key;

    other_key.field = other;
    const struct entered end = record_entered(record, other_key);
    *ret_beside = end.given;
    if (!end.given || is_around(&slack, value, end.value, end.value, 0))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BESIDE, .beside = end.value};
}

struct doubt doubt_row_find(const struct record *record, const struct reading_key *key,
                            double value, bool *ret_beside)
{
    static const enum field_id ends[][2] = {
        {FIELD_EXPOSURE_BASS, FIELD_EXPOSURE_TREBLE},
        {FIELD_TARGET_ACTION_BASS, FIELD_TARGET_ACTION_TREBLE},
        {FIELD_TARGET_GAP_BASS, FIELD_TARGET_GAP_TREBLE},
    };

    *ret_beside = false;
    if (key->field == FIELD_NUT_GAP || key->field == FIELD_ACTION)
        return doubt_strings(record, key, value, ret_beside);
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        for (int end = 0; end < 2; end++)
            if (key->field == ends[i][end])
                return doubt_other_end(record, key, ends[i][1 - end], value, ret_beside);
    return (struct doubt){.kind = DOUBT_NONE};
}
