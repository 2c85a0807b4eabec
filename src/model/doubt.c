/* SPDX-License-Identifier: MIT */
#include "model/doubt.h"

#include <math.h>
#include <string.h>

#include "model/doubt_day.h"

/* By how much readings of one row, or of one cell from pass to pass, may differ (doubt.h). */
struct slack {
    double beside_mm, beside_share, slope_mm; /* 0: nothing stands beside it */
    double before_mm;
};

static struct slack slack_of(enum field_id field)
{
    switch (field) {
    case FIELD_RELIEF:
        return (struct slack){.before_mm = 0.12};
    case FIELD_NUT_GAP:
        return (struct slack){0.25, 1.0 / 3, 0.05, 0.12};
    case FIELD_ACTION:
        return (struct slack){0.7, 0.25, 0.3, 0.6};
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
        return (struct slack){4, 0, 0, 1.5};
    default:
        return (struct slack){0, 0, 0, 0};
    }
}

/* --- the row --- */

static bool fits_beside(const struct slack *slack, double a, double b, int strings_away)
{
    const double share = slack->beside_share * fmax(fabs(a), fabs(b));

    return fabs(a - b) <= fmax(slack->beside_mm, share) + slack->slope_mm * strings_away;
}

/* The nearest string that was read, from `string` on in steps of `by`; 0 for none. */
static int next_read(const struct entered *read, int strings, int string, int by)
{
    for (string += by; string >= 1 && string <= strings; string += by)
        if (read[string].given)
            return string;
    return 0;
}

/* The two strings to compare with: one on either side, at an end the two nearest. */
static int find_beside(const struct entered *read, int strings, int string, int ret_beside[2])
{
    const int below = next_read(read, strings, string, -1);
    const int above = next_read(read, strings, string, 1);
    const int near = below ? below : above;
    int far = below && above ? above : 0;

    if (near == 0)
        return 0;
    if (far == 0)
        far = next_read(read, strings, near, near > string ? 1 : -1);
    ret_beside[0] = near;
    ret_beside[1] = far;
    return far ? 2 : 1;
}

static bool fits_row(enum field_id field, const struct entered *read, int strings, int string,
                     double value, int ret_beside[2], int *ret_count)
{
    const struct slack slack = slack_of(field);
    const int count = find_beside(read, strings, string, ret_beside);
    bool fits = count == 0;

    for (int i = 0; i < count; i++)
        fits = fits || fits_beside(&slack, value, read[ret_beside[i]].value,
                                   ret_beside[i] > string ? ret_beside[i] - string
                                                          : string - ret_beside[i]);
    *ret_count = count;
    return fits;
}

bool doubt_is_odd_one(enum field_id field, const struct entered *read, int strings, int string)
{
    int beside[2], count;

    return read[string].given &&
           !fits_row(field, read, strings, string, read[string].value, beside, &count) &&
           count == 2;
}

static void read_row(const struct record *record, const struct reading_key *key,
                     struct entered *ret_read)
{
    struct reading_key each = *key;

    for (each.string = 1; each.string <= STRINGS_MAX; each.string++)
        ret_read[each.string] = record_entered(record, each);
}

static struct doubt doubt_strings(const struct record *record, const struct reading_key *key,
                                  double value)
{
    struct entered read[STRINGS_MAX + 1];
    int beside[2], count;

    read_row(record, key, read);
    if (fits_row(key->field, read, STRINGS_MAX, key->string, value, beside, &count))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){
        .kind = DOUBT_BESIDE, .beside = read[beside[0]].value, .string = beside[0]};
}

static struct doubt doubt_other_end(const struct record *record, const struct reading_key *key,
                                    double value)
{
    const enum field_id field =
        key->field == FIELD_EXPOSURE_BASS ? FIELD_EXPOSURE_TREBLE : FIELD_EXPOSURE_BASS;
    const struct entered end =
        record_entered(record, reading_key_pass(field, key->visit, key->part));
    const struct slack slack = slack_of(field);

    if (!end.given || fits_beside(&slack, value, end.value, 0))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BESIDE, .beside = end.value};
}

static struct doubt doubt_beside(const struct record *record, const struct reading_key *key,
                                 double value)
{
    switch (key->field) {
    case FIELD_NUT_GAP:
    case FIELD_ACTION:
        return doubt_strings(record, key, value);
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
        return doubt_other_end(record, key, value);
    default:
        return (struct doubt){.kind = DOUBT_NONE};
    }
}

/* --- the pass before, the gauge, the board --- */

static void widen(struct entered by, double *low, double *high)
{
    if (!by.given)
        return;
    *low = fmin(*low, by.value);
    *high = fmax(*high, by.value);
}

static double gauge_step(const struct record *record, const struct field *field)
{
    if (field->step == STEP_FEELER)
        return record_or_fallback(record, FIELD_FEELER_STEP);
    return field->step == STEP_RULE ? record_or_fallback(record, FIELD_RULE_STEP) : 0;
}

static struct doubt doubt_before(const struct record *record, const struct field *field,
                                 double value, const struct doubt_about *about)
{
    const struct slack slack = slack_of(field->id);
    double low = about->expected.value, high = low;

    if (!about->expected.given || slack.before_mm == 0)
        return (struct doubt){.kind = DOUBT_NONE};
    widen(about->before, &low, &high);
    widen(about->wanted, &low, &high);
    const double err = slack.before_mm + gauge_step(record, field) + (high - low) / 4;
    if (value >= low - err && value <= high + err)
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BEFORE, .beside = about->expected.value};
}

static bool is_too_fine(const struct record *record, const struct field *field, double value)
{
    const double rod_turns = 0.05, step = gauge_step(record, field), rounding = 1e-9;
    const double least = field->id == FIELD_ROD_TURN  ? rod_turns
                         : field->step == STEP_FEELER ? step / 2
                                                      : step * 2;

    return value != 0 && fabs(value) < least - rounding;
}

/* What readings stand on; true where another value of it would be another board. */
static bool is_other_board(enum field_id field, double before, double value)
{
    switch (field) {
    case FIELD_STRINGS:
    case FIELD_FRETS:
        return value != before;
    case FIELD_SCALE:
    case FIELD_SCALE_TREBLE:
    case FIELD_SCALE_BASS:
        return fabs(value - before) > before / 50;
    default:
        return false;
    }
}

static struct doubt doubt_board(const struct record *record, const struct reading_key *key,
                                double value)
{
    const struct entered before = record_entered(record, *key);
    int visit, pass;

    if (!before.given || !is_other_board(key->field, before.value, value) ||
        !record_current_pass(record, &visit, &pass))
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BOARD, .beside = before.value};
}

/* --- numbers --- */

static struct doubt doubt_number(const struct record *record, const struct reading_key *key,
                                 double value, const struct doubt_about *about)
{
    const struct field *field = field_get(key->field);
    struct doubt doubt = {.kind = DOUBT_NONE};

    if (value > field->usual_max)
        doubt.kind = DOUBT_LARGE;
    else if (value < field->usual_min)
        doubt.kind = DOUBT_SMALL;
    else if (is_too_fine(record, field, value))
        doubt.kind = DOUBT_FINE;
    if (doubt.kind == DOUBT_NONE)
        doubt = doubt_board(record, key, value);
    if (doubt.kind == DOUBT_NONE)
        doubt = doubt_beside(record, key, value);
    if (doubt.kind == DOUBT_NONE)
        doubt = doubt_before(record, field, value, about);
    return doubt;
}

/* What a likely reading has to be near: what it was compared with, else the target. */
static struct entered near_what(const struct doubt *doubt, const struct doubt_about *about)
{
    if (doubt->kind == DOUBT_BESIDE || doubt->kind == DOUBT_BEFORE)
        return (struct entered){.value = doubt->beside, .given = true};
    return about->expected.given ? about->expected : about->wanted;
}

/* By how many powers of two a value is off what was to be expected. */
static double octaves(double value, struct entered near)
{
    const double ratio = near.given ? value / near.value : 1;

    return ratio > 0 && isfinite(ratio) ? fabs(log2(ratio)) : 0;
}

/* The digits with their point elsewhere: of those that raise no doubt the likeliest. */
static void find_likely(const struct record *record, const struct reading_key *key, double value,
                        const struct doubt_about *about, struct doubt *doubt)
{
    static const double places[] = {-1, 1, -2, 2};
    const struct entered near = near_what(doubt, about);
    /* A neighbour's reading says what to expect, a target only what to wish for. */
    const bool compared = doubt->kind == DOUBT_BESIDE || doubt->kind == DOUBT_BEFORE;
    double least = (double)INFINITY;

    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        const double each = value * pow(10, places[i]);
        /* One place is missed more easily than two. */
        const double away = octaves(each, near) + fabs(places[i]);

        if (away >= least || (compared && octaves(each, near) > 0.5) ||
            doubt_number(record, key, each, about).kind != DOUBT_NONE)
            continue;
        doubt->has_likely = true;
        doubt->likely = each;
        least = away;
    }
}

/* Degrees are said without their scale, and 70 is a room in one of them only. */
static void find_other_scale(const struct field *field, double value, struct doubt *doubt)
{
    const double as_fahrenheit = unit_to_pivot(UNIT_F, value);

    if (field->quantity != QUANTITY_TEMPERATURE || as_fahrenheit < field->usual_min ||
        as_fahrenheit > field->usual_max)
        return;
    doubt->has_likely = true;
    doubt->likely = as_fahrenheit;
}

/* A row that reads such a value as usual, where this one does not. A rod's cell lies on the way
 * to the gaps. */
static void find_other_row(enum field_id field, double value, struct doubt *doubt)
{
    const double gap = field == FIELD_ROD_TURN ? unit_to_pivot(UNIT_IN, fabs(value)) : value;
    const enum field_id other = field == FIELD_NUT_GAP ? FIELD_ACTION : FIELD_NUT_GAP;

    if (field != FIELD_NUT_GAP && field != FIELD_ACTION && field != FIELD_ROD_TURN &&
        field != FIELD_EXPOSURE_BASS && field != FIELD_EXPOSURE_TREBLE)
        return;
    doubt->has_other = gap >= field_get(other)->usual_min && gap <= field_get(other)->usual_max;
    doubt->other = other;
}

static void find_meant(const struct record *record, const struct reading_key *key,
                       const struct doubt_entry *entry, const struct doubt_about *about,
                       struct doubt *doubt)
{
    const double value = entry->value.value;

    if (doubt->kind == DOUBT_NONE || doubt->kind == DOUBT_BOARD)
        return;
    find_other_scale(field_get(key->field), value, doubt);
    if (doubt->has_likely)
        return;
    /* Digits alone lack a point; a point or a fraction that was typed was meant. */
    if (!entry->whole &&
        (doubt->kind == DOUBT_LARGE || doubt->kind == DOUBT_SMALL || doubt->kind == DOUBT_FINE))
        find_other_row(key->field, value, doubt);
    /* A fraction has no point to be missed. */
    if (!doubt->has_other && (entry->whole || !strchr(entry->text, '/')))
        find_likely(record, key, value, about, doubt);
}

struct doubt doubt_find(const struct record *record, const struct reading_key *key,
                        const struct doubt_entry *entry, const struct doubt_about *about)
{
    const struct field *field = field_get(key->field);
    struct doubt doubt = {.kind = DOUBT_NONE};

    switch (field->kind) {
    case KIND_NUMBER:
    case KIND_RADIUS:
    case KIND_COUNT:
        if (strcmp(entry->text, "flat") == 0)
            return doubt;
        doubt = doubt_number(record, key, entry->value.value, about);
        find_meant(record, key, entry, about, &doubt);
        return doubt;
    case KIND_DATE:
    case KIND_TIME:
        return doubt_of_day(record, key, entry->text, about);
    case KIND_TEXT:
        return field->id == FIELD_BUILT ? doubt_of_year(entry->text, about) : doubt;
    case KIND_CHOICE:
    case KIND_YESNO:
    case KIND_NOTE:
    case KIND_FRETS:
        break;
    }
    return doubt;
}
