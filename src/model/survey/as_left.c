/* SPDX-License-Identifier: MIT */
#include "model/survey/as_left.h"

#include <string.h>

#include "model/reading/moment.h"
#include "model/reading/note_name.h"

/* --- which visit --- */

bool as_left_is_followed(const struct record *record)
{
    static const enum field_id kept[] = {FIELD_VISIT_TICKET, FIELD_VISIT_PROMISED,
                                         FIELD_VISIT_HANDED_OVER};
    int visit = 0;

    while (record_next_visit(record, &visit))
        for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
            const struct reading_key key = reading_key_visit(kept[i], visit);

            if (record_find(record, &key))
                return true;
        }
    return false;
}

bool as_left_is_handed_over(const struct record *record, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_HANDED_OVER, visit);

    return record_find(record, &key) != NULL;
}

bool as_left_is_over(const struct record *record, int visit)
{
    return visit < record_last_visit(record) || as_left_is_handed_over(record, visit) ||
           !as_left_is_followed(record);
}

int as_left_last(const struct record *record)
{
    const struct place last = place_current(record);
    struct place place = last;

    while (place.visit > 0 && !as_left_is_over(record, place.visit))
        if (!place_before(&place))
            return last.visit;
    return place.visit;
}

int as_left_by(const struct record *record, int day)
{
    int visit = 0, found = 0;

    while (record_next_visit(record, &visit))
        if (maybe_or(moment_of_day(record, FIELD_VISIT_DATE, visit), day + 1.0) <= day)
            found = visit;
    return found;
}

int as_left_step(const struct record *record, int visit, int by)
{
    int at = 0, before = 0;

    if (by > 0)
        return record_next_visit(record, &visit) ? visit : 0;
    while (record_next_visit(record, &at) && at < visit)
        before = at;
    return before;
}

/* --- what it had --- */

/* The last reading of the visit up to the pass: not everything is read again in each. */
static struct maybe last_read(struct place place, enum field_id field, int string)
{
    const int visit = place.visit;
    struct maybe read = maybe_absent();

    while (place.visit == visit && place.pass > 0 && !read.given) {
        read = place_read_at(place, field, string, 0);
        if (!read.given && !place_before(&place))
            break;
    }
    return read;
}

/* Before the first pass where the visit has none. */
static struct place last_pass(const struct record *record, int visit)
{
    struct place place = place_of(record, visit + 1, 0);

    return place_before(&place) && place.visit == visit ? place : place_of(record, visit, 0);
}

static void find_left(struct place place, struct shelf_facts *facts)
{
    struct outfit outfit;

    if (place.visit == 0)
        return;
    outfit_read(&outfit, &place.record, place.visit);
    const int bass = outfit.strings > 0 ? outfit.read_as[outfit.strings] : 0;
    const int treble = outfit.strings > 0 ? outfit.read_as[1] : 0;
    facts->number[FACT_LEFT_DAY] = moment_of_day(&place.record, FIELD_VISIT_DATE, place.visit);
    facts->number[FACT_LEFT_RELIEF] = last_read(place, FIELD_RELIEF, 0);
    facts->number[FACT_LEFT_ACTION_BASS] = last_read(place, FIELD_ACTION, bass);
    facts->number[FACT_LEFT_ACTION_TREBLE] = last_read(place, FIELD_ACTION, treble);
    facts->number[FACT_LEFT_GAP_BASS] = last_read(place, FIELD_NUT_GAP, bass);
    facts->number[FACT_LEFT_GAP_TREBLE] = last_read(place, FIELD_NUT_GAP, treble);
    facts->number[FACT_LEFT_EXPOSURE_BASS] = last_read(place, FIELD_EXPOSURE_BASS, 0);
    facts->number[FACT_LEFT_EXPOSURE_TREBLE] = last_read(place, FIELD_EXPOSURE_TREBLE, 0);
}

static void find_wanted(const struct record *record, struct shelf_facts *facts)
{
    static const struct {
        enum fact_number fact;
        enum field_id field;
    } wanted[] = {
        {FACT_WANTED_RELIEF, FIELD_TARGET_RELIEF},
        {FACT_WANTED_ACTION_BASS, FIELD_TARGET_ACTION_BASS},
        {FACT_WANTED_ACTION_TREBLE, FIELD_TARGET_ACTION_TREBLE},
        {FACT_WANTED_GAP_BASS, FIELD_TARGET_GAP_BASS},
        {FACT_WANTED_GAP_TREBLE, FIELD_TARGET_GAP_TREBLE},
    };

    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        facts->number[wanted[i].fact] = record_entered_one(record, wanted[i].field);
}

static const char *gauge_text(const struct record *record, int string)
{
    const struct reading_key key = reading_key_string(FIELD_GAUGE, string);

    return record_text(record, &key);
}

/* The unit that all gauges are typed in, with its blank; NULL if they differ. */
static const char *gauge_unit(const struct record *record, int strings)
{
    const char *unit = NULL;

    for (int s = strings; s >= 1; s--) {
        const char *text = gauge_text(record, s), *blank = text ? strrchr(text, ' ') : NULL;

        if (text && (!blank || (unit && strcmp(unit, blank) != 0)))
            return NULL;
        unit = blank ? blank : unit;
    }
    return unit;
}

/* Each gauge as typed; the unit once, at the end, where all have the same. */
static void add_gauges(const struct record *record, int strings, struct strbuf *out)
{
    const char *unit = gauge_unit(record, strings);

    for (int s = strings; s >= 1; s--) {
        const char *text = gauge_text(record, s);

        if (!text)
            continue;
        strbuf_add(out, out->length > 0 ? " " : "");
        strbuf_add_bytes(out, text, strlen(text) - (unit ? strlen(unit) : 0));
    }
    strbuf_add(out, unit ? unit : "");
}

static void find_strings(const struct record *record, struct shelf_facts *facts)
{
    const int strings = record_string_count(record);
    char memory[96], notes_memory[64];
    struct strbuf gauges = STRBUF(memory), notes = STRBUF(notes_memory);

    add_gauges(record, strings, &gauges);
    shelf_facts_put_text(facts, FACT_GAUGES, memory);
    for (int s = strings; s >= 1; s--) {
        char name_memory[16];
        struct strbuf name = STRBUF(name_memory);

        if (note_name_of(record, s, &name))
            strbuf_addf(&notes, "%s%s", notes.length > 0 ? " " : "", name_memory);
    }
    shelf_facts_put_text(facts, FACT_TUNING, notes_memory);
}

void as_left_make(const struct record *record, int visit, struct shelf_facts *facts)
{
    const struct record then = record_as_of(record, visit);

    find_wanted(&then, facts);
    find_left(last_pass(record, visit), facts);
    find_strings(&then, facts);
}
