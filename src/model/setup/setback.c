/* SPDX-License-Identifier: MIT */
#include "model/setup/setback.h"

#include <math.h>

#include "model/reading/work_amount.h"
#include "model/reading/work_line.h"

static const struct reading *find_reading(const struct record *record, const struct outfit *outfit,
                                          int string)
{
    const struct reading_key own = reading_key_string(FIELD_SETBACK, string);
    const struct reading_key first =
        reading_key_string(FIELD_SETBACK, outfit_first(outfit, string));
    const struct reading *reading = record_get(record, &own);

    if (!reading || reading->value.state == READING_BAD)
        reading = record_get(record, &first);
    return reading && reading->value.state != READING_BAD ? reading : NULL;
}

/* How far back a work line says that a string's saddle went, mm; NAN where it does not tell. A line
 * that names strings left the others alone; one that names none tells of a bridge as a whole. */
static double moved_by(struct place place, const struct outfit *outfit, int line, int string)
{
    const struct reading_key key = work_key(WORK_AMOUNT, place.visit, line);
    const struct maybe thread_mm = record_entered_one(&place.record, FIELD_INTONATION_THREAD);
    struct work_amount said;

    work_amount_find(record_text(&place.record, &key), outfit, &said);
    const double unit_mm = said.unit == WORK_AMOUNT_TURNS ? maybe_or(thread_mm, (double)NAN) : 1;
    const bool whole = record_or_fallback(&place.record, FIELD_FLOATING) != 0;
    const int at = said.is_said[string] || !whole ? string : 0;
    bool any = false;

    for (int s = 1; s <= outfit->strings; s++)
        any = any || said.is_said[s];
    if (said.unit == WORK_AMOUNT_NONE || (!any && !whole))
        return (double)NAN;
    if (!said.is_said[at])
        return 0;
    if (said.back[at].given)
        return said.back[at].value * unit_mm;
    return said.has_sign[at] ? said.value[at] * unit_mm : (double)NAN;
}

/* Whether a line of a visit moved saddles after one pass and before another. */
static bool is_between(struct place from, struct place to, struct place visit, int line)
{
    const char *kind = work_line_text(&visit.record, WORK_KIND, visit.visit, line);

    return work_mark_named(kind) == MOVE_PITCH &&
           (visit.visit != from.visit || work_mark_is_since(from, line)) &&
           (visit.visit != to.visit || !work_mark_is_since(to, line));
}

/* All that was logged between two passes; *ret_any tells whether anything was. */
static double moved_between(struct place from, struct place to, const struct outfit *outfit,
                            int string, bool *ret_any)
{
    struct place visit = from;
    double mm = 0;

    *ret_any = false;
    do {
        const int lines = record_last_work(&visit.record, visit.visit);

        for (int line = 1; line <= lines; line++) {
            const double by =
                is_between(from, to, visit, line) ? moved_by(visit, outfit, line, string) : 0;

            *ret_any = *ret_any || by != 0;
            mm += by;
        }
        visit.pass = 0;
    } while (record_next_visit(&visit.record, &visit.visit) && visit.visit <= to.visit);
    return mm;
}

void setback_find(struct place place, const struct outfit *outfit, int string,
                  struct setback *ret_setback)
{
    const struct reading *reading = find_reading(&place.record, outfit, string);

    *ret_setback = (struct setback){.about_mm = reading ? reading->value.value : 0};
    if (!reading)
        return;
    ret_setback->mm = maybe_given(reading->value.value);
    if (reading->key.field != FIELD_SETBACK_READ)
        return;
    const struct place from = place_of(&place.record, reading->key.visit, reading->key.part);
    const double mm = moved_between(from, place, outfit, string, &ret_setback->is_expected);
    ret_setback->mm = isnan(mm) ? maybe_absent() : maybe_given(reading->value.value + mm);
    ret_setback->about_mm = maybe_or(ret_setback->mm, reading->value.value);
}
