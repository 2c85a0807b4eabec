/* SPDX-License-Identifier: MIT */
#include "model/doubt/doubt.h"

#include <math.h>
#include <string.h>

#include "base/ascii.h"
#include "model/figure/bench_row.h"
#include "model/doubt/doubt_day.h"
#include "model/doubt/doubt_record.h"
#include "model/doubt/doubt_row.h"

/* --- the pass before, the gauge --- */

static void widen(struct maybe by, double *low, double *high)
{
    if (!by.given)
        return;
    *low = fmin(*low, by.value);
    *high = fmax(*high, by.value);
}

/* The step of the gauge that a length is read with, or set to; 0 for none. */
static double gauge_step_mm(const struct record *record, const struct field *field)
{
    return field->quantity == QUANTITY_LENGTH ? maybe_or(record_step(record, field), 0) : 0;
}

static struct doubt doubt_before(const struct record *record, const struct field *field,
                                 double value, const struct doubt_about *about)
{
    const struct bench_row *row = bench_row_of(field->id);
    const double slack_mm = row ? row->before_mm : 0;
    double low = about->expected.value, high = low;

    if (!about->expected.given || slack_mm == 0)
        return (struct doubt){.kind = DOUBT_NONE};
    widen(about->before, &low, &high);
    widen(about->wanted, &low, &high);
    const double err = slack_mm + gauge_step_mm(record, field) + (high - low) / 4;
    if (value >= low - err && value <= high + err)
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BEFORE, .beside = about->expected.value};
}

static bool is_too_fine(const struct record *record, const struct field *field, double value)
{
    const double rod_turns = 0.05, step = gauge_step_mm(record, field), rounding = 1e-9;
    const double least = field->id == FIELD_ROD_TURN        ? rod_turns
                         : field->measure == MEASURE_FEELER ? step * 2 / 3
                                                            : step * 2;

    return value != 0 && fabs(value) < least - rounding;
}

/* --- numbers --- */

static struct doubt doubt_number(const struct record *record, const struct reading_key *key,
                                 double value, const struct doubt_about *about)
{
    const struct field *field = field_get(key->field);
    struct doubt doubt = {.kind = DOUBT_NONE};
    bool has_beside = false;

    if (value > field->usual_max)
        doubt.kind = DOUBT_LARGE;
    else if (value < field->usual_min)
        doubt.kind = DOUBT_SMALL;
    else if (is_too_fine(record, field, value))
        doubt.kind = DOUBT_FINE;
    if (doubt.kind == DOUBT_NONE)
        doubt = doubt_record_find(record, key, value);
    if (doubt.kind == DOUBT_NONE)
        doubt = doubt_row_find(record, key, value, &has_beside);
    /* What this pass has read beside it tells more than a pass before. */
    if (doubt.kind == DOUBT_NONE && !has_beside)
        doubt = doubt_before(record, field, value, about);
    return doubt;
}

/* What a likely reading has to be near: what it was compared with, else the target. */
static struct maybe near_what(const struct doubt *doubt, const struct doubt_about *about)
{
    if (doubt->kind == DOUBT_BESIDE || doubt->kind == DOUBT_BEFORE)
        return maybe_given(doubt->beside);
    return about->expected.given ? about->expected : about->wanted;
}

/* By how many powers of two a value is off what was to be expected. */
static double octaves(double value, struct maybe near)
{
    const double ratio = near.given ? value / near.value : 1;

    return ratio > 0 && isfinite(ratio) ? fabs(log2(ratio)) : 0;
}

/* The digits with their point elsewhere: of those that raise no doubt the likeliest. */
static void find_likely(const struct record *record, const struct reading_key *key, double value,
                        const struct doubt_about *about, struct doubt *doubt)
{
    static const double places[] = {-1, 1, -2, 2};
    const struct maybe near = near_what(doubt, about);
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

/* The number with a unit that was left out: 70 is a room in one of two scales only, and 2.4 an
 * action in mm. */
static void find_other_unit(const struct record *record, const struct reading_key *key,
                            const struct doubt_entry *entry, const struct doubt_about *about,
                            struct doubt *doubt)
{
    static const enum unit units[] = {UNIT_MM, UNIT_IN, UNIT_F, UNIT_C};
    const struct field *field = field_get(key->field);

    for (size_t i = 0; entry->bare != 0 && i < sizeof units / sizeof units[0]; i++) {
        const double each = unit_to_pivot(units[i], entry->bare);

        if (doubt->has_likely || unit_quantity(units[i]) != field->quantity ||
            doubt_number(record, key, each, about).kind != DOUBT_NONE)
            continue;
        doubt->has_likely = true;
        doubt->likely = each;
        doubt->likely_unit = units[i];
    }
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

/* A string's diameter in inches lacks a 0, as .18 for .018; in millimetres there is one before the
 * point, as in 0.30. */
static bool is_thick_in_inches(const struct reading_key *key, const struct doubt_entry *entry)
{
    return (key->field == FIELD_GAUGE || key->field == FIELD_CORE) && entry->text[0] == '.' &&
           strstr(entry->text, " in");
}

static void find_meant(const struct record *record, const struct reading_key *key,
                       const struct doubt_entry *entry, const struct doubt_about *about,
                       struct doubt *doubt)
{
    const double value = entry->value.value;

    if (doubt->kind == DOUBT_NONE || doubt->kind == DOUBT_BOARD || doubt->kind == DOUBT_BEYOND)
        return;
    /* Digits alone lack a point; a point or a fraction that was typed was meant. */
    if ((entry->whole && field_get(key->field)->quantity == QUANTITY_LENGTH) ||
        is_thick_in_inches(key, entry))
        find_likely(record, key, value, about, doubt);
    if (!doubt->has_likely)
        find_other_unit(record, key, entry, about, doubt);
    if (doubt->has_likely)
        return;
    if (!entry->whole && (key->field != FIELD_ROD_TURN || !strchr(entry->text, '/')) &&
        (doubt->kind == DOUBT_LARGE || doubt->kind == DOUBT_SMALL || doubt->kind == DOUBT_FINE))
        find_other_row(key->field, value, doubt);
    /* A fraction has no point to be missed. */
    if (!doubt->has_other && (entry->whole || !strchr(entry->text, '/')))
        find_likely(record, key, value, about, doubt);
}

/* --- how it is written --- */

/* The first number below a line that no rule is divided by; 0 for none. A cell of hundredths has
 * them below its own line. */
static int odd_parts(const char *text)
{
    for (const char *line = strchr(text, '/'); line; line = strchr(line + 1, '/')) {
        const size_t blanks = strspn(line + 1, " "),
                     digits = strspn(line + 1 + blanks, "0123456789");
        int below;

        if (num_count(line + 1 + blanks, digits, 9999, &below) == STATUS_OK && below > 0 &&
            (below & (below - 1)) != 0 && below != 100)
            return below;
    }
    return 0;
}

/* Thousandths of a leaf's thousandth are a comma too many: 1,012 for .012. */
static bool is_split_by_comma(const struct doubt_entry *entry, double *ret_leaf_mm)
{
    const size_t digits = strspn(entry->text, "0123456789");
    const char *point = entry->text + digits;
    double leaf;

    if (digits == 0 || *point != '.' || strspn(point + 1, "0123456789") != 3 ||
        strcmp(point + 4, " th") != 0 || num_decimal(point, 4, &leaf) != STATUS_OK)
        return false;
    *ret_leaf_mm = unit_to_pivot(UNIT_IN, leaf);
    return *ret_leaf_mm > 0;
}

/* Tenths of a 64th stand on no rule that is divided in 64ths; in mm they do, where that goes with
 * all the rest. */
static bool is_between_marks(const struct record *record, const struct reading_key *key,
                             const struct doubt_entry *entry, const struct doubt_about *about)
{
    const double quarters = 4 * entry->bare;

    return strstr(entry->text, "/64") && quarters != floor(quarters) &&
           doubt_number(record, key, entry->bare, about).kind == DOUBT_NONE;
}

static struct doubt doubt_written(const struct record *record, const struct reading_key *key,
                                  const struct doubt_entry *entry, const struct doubt_about *about)
{
    const char *kept = record_text(record, key);
    struct doubt doubt = {.kind = DOUBT_NONE};

    if (field_get(key->field)->quantity != QUANTITY_LENGTH ||
        (kept && strcmp(kept, entry->text) == 0))
        return doubt;
    doubt.parts = odd_parts(entry->text);
    if (doubt.parts > 0) {
        doubt.kind = DOUBT_PARTS;
    } else if (is_split_by_comma(entry, &doubt.likely)) {
        doubt.kind = DOUBT_FINE;
        doubt.has_likely = true;
        doubt.likely_unit = UNIT_IN;
    } else if (is_between_marks(record, key, entry, about)) {
        doubt = (struct doubt){
            .kind = DOUBT_FINE, .has_likely = true, .likely = entry->bare, .likely_unit = UNIT_MM};
    }
    return doubt;
}

static struct doubt doubt_sign(const struct field *field, double value,
                               const struct doubt_about *about)
{
    if (field->id != FIELD_ROD_TURN || value * about->rod_way >= 0)
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_SIGN, .has_likely = true, .likely = -value};
}

static bool has_letter(const char *text)
{
    while (*text && !is_ascii_letter(*text) && (unsigned char)*text < 0x80)
        text++;
    return *text != '\0';
}

/* `held`: what stands there already, which is asked about when it is replaced. */
static struct doubt doubt_text(const struct field *field, const char *held, const char *text,
                               const struct doubt_about *about)
{
    if (field->id == FIELD_BUILT)
        return doubt_of_year(text, about);
    /* A star is the menu's key, pressed once too often. */
    if (about->of_move &&
        (strchr(text, '*') || (strlen(text) <= 2 && !strpbrk(text, "0123456789"))))
        return (struct doubt){.kind = DOUBT_LETTERS};
    if (field->id == FIELD_WORK_KIND && !held && !has_letter(text))
        return (struct doubt){.kind = DOUBT_NO_WORD};
    return (struct doubt){.kind = DOUBT_NONE};
}

static struct doubt doubt_kind_of(const struct record *record, const struct reading_key *key,
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
        doubt = doubt_written(record, key, entry, about);
        if (doubt.kind != DOUBT_NONE)
            return doubt;
        doubt = doubt_number(record, key, entry->value.value, about);
        find_meant(record, key, entry, about, &doubt);
        return doubt.kind == DOUBT_NONE ? doubt_sign(field, entry->value.value, about) : doubt;
    case KIND_DATE:
    case KIND_TIME:
        return doubt_of_day(record, key, entry->text, about);
    case KIND_TEXT:
        return doubt_text(field, record_text(record, key), entry->text, about);
    case KIND_NOTE:
        return doubt_note_find(record, key, entry->value.value);
    case KIND_CHOICE:
    case KIND_YESNO:
    case KIND_FRETS:
        break;
    }
    return doubt;
}

struct doubt doubt_find(const struct record *record, const struct reading_key *key,
                        const struct doubt_entry *entry, const struct doubt_about *about)
{
    struct doubt doubt = doubt_kind_of(record, key, entry, about);

    if (doubt.kind == DOUBT_NONE && about->not_due)
        doubt.kind = DOUBT_NOT_DUE;
    else if (doubt.kind == DOUBT_NONE && about->unread)
        doubt.kind = DOUBT_UNREAD;
    return doubt;
}
