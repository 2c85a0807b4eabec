/* SPDX-License-Identifier: MIT */
#include "model/doubt/doubt_row.h"

#include <math.h>
#include <stdlib.h>

#include "model/figure/bench_row.h"
#include "model/reading/outfit.h"

/* Around what is read on one string, or on two that go with each other and all between. */
static bool is_around(const struct bench_slack *slack, double value, double a, double b,
                      double more_mm)
{
    const double rounding = 1e-9;

    if (slack->mm == 0 && slack->share == 0)
        return true;
    const double err = fmax(slack->mm, slack->share * fmax(fabs(a), fabs(b))) + more_mm + rounding;

    return value >= fmin(a, b) - err && value <= fmax(a, b) + err;
}

/* The nearest string that was read, from `string` on in steps of `by`; 0 for none. */
static int next_read(const struct maybe *read, int strings, int string, int by)
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

static struct beside find_beside(const struct maybe *read, int strings, int string)
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
static bool fits_one(const struct bench_slack *slack, const struct maybe *read, int string,
                     int other, double value, int adjacent)
{
    const int away = abs(other - string) - adjacent;

    return is_around(slack, value, read[other].value, read[other].value, slack->slope_mm * away);
}

/* Beyond the row's end the nearest string decides, with the slope from the next one on. */
static bool fits_end(const struct bench_slack *slack, const struct maybe *read, int string,
                     const struct beside *beside, double value)
{
    const double near = read[beside->near].value;
    const double slope = (near - read[beside->far].value) / abs(beside->near - beside->far);
    const int away = abs(beside->near - string);

    return is_around(slack, value, near, near + slope * away, slack->end_mm * away);
}

static bool fits_row(const struct bench_slack *slack, const struct maybe *read, int string,
                     const struct beside *beside, double value)
{
    const int near = beside->near, far = beside->far;

    if (near == 0)
        return true;
    if (far == 0)
        return fits_one(slack, read, string, near, value, 0);
    if (!beside->is_end)
        return fits_one(slack, read, string, near, value, 1) ||
               fits_one(slack, read, string, far, value, 1);
    /* Where the two do not go with each other, one of them truly is off. */
    if (fits_one(slack, read, far, near, read[far].value, 0))
        return fits_end(slack, read, string, beside, value);
    return fits_one(slack, read, string, near, value, 0) ||
           fits_one(slack, read, string, far, value, 0);
}

bool doubt_is_odd_one(enum field_id field, const struct maybe *read, int strings, int string)
{
    const struct bench_row *row = bench_row_of(field);
    const struct beside beside = find_beside(read, strings, string);

    return row && read[string].given && beside.far > 0 &&
           !fits_row(&row->beside, read, string, &beside, read[string].value);
}

static void read_strings(const struct record *record, const struct reading_key *key,
                         const struct outfit *outfit, int strings, struct maybe *ret_read)
{
    struct maybe row[STRINGS_MAX + 1] = {{.given = false}};
    struct reading_key each = *key;

    for (each.string = 1; each.string <= strings; each.string++)
        row[each.string] = record_entered(record, each);
    outfit_row_of(outfit, key->string, row, ret_read);
}

bool doubt_is_unlike_row(const struct record *record, const struct reading_key *key,
                         const struct outfit *outfit, int strings)
{
    struct maybe read[STRINGS_MAX + 1] = {{.given = false}};

    if (key->string < 1 || key->string > strings)
        return false;
    read_strings(record, key, outfit, strings, read);
    return doubt_is_odd_one(key->field, read, strings, key->string);
}

static struct doubt doubt_strings(const struct record *record, const struct reading_key *key,
                                  const struct bench_row *row, double value, bool *ret_beside)
{
    struct maybe read[STRINGS_MAX + 1] = {{.given = false}};
    struct outfit outfit;

    outfit_read(&outfit, record, key->visit);
    read_strings(record, key, &outfit, STRINGS_MAX, read);
    const struct beside beside = find_beside(read, STRINGS_MAX, key->string);
    *ret_beside = beside.near > 0;
    if (fits_row(&row->beside, read, key->string, &beside, value))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){
        .kind = DOUBT_BESIDE, .beside = read[beside.near].value, .string = beside.near};
}

/* `ends` are the fields of both ends; if they are the same, there is no other end. */
static struct doubt doubt_other_end(const struct record *record, const struct reading_key *key,
                                    const enum field_id ends[END_COUNT_],
                                    const struct bench_slack *slack, double value, bool *ret_beside)
{
    struct reading_key other = *key;

    other.field = ends[key->field == ends[END_BASS] ? END_TREBLE : END_BASS];
    if (other.field == key->field)
        return (struct doubt){.kind = DOUBT_NONE};
    const struct maybe end = record_entered(record, other);
    *ret_beside = end.given;
    if (!end.given || is_around(slack, value, end.value, end.value, 0))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BESIDE, .beside = end.value};
}

struct doubt doubt_row_find(const struct record *record, const struct reading_key *key,
                            double value, bool *ret_beside)
{
    const struct bench_row *row = bench_row_of(key->field);
    const struct bench_row *wanted = bench_row_of_target(key->field);

    *ret_beside = false;
    if (row && bench_row_by_string(row))
        return doubt_strings(record, key, row, value, ret_beside);
    if (row)
        return doubt_other_end(record, key, row->field, &row->beside, value, ret_beside);
    if (wanted) {
        const struct bench_slack slack = {.mm = wanted->targets_mm};

        return doubt_other_end(record, key, wanted->target, &slack, value, ret_beside);
    }
    return (struct doubt){.kind = DOUBT_NONE};
}
