/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_load.h"

#include <stdint.h>
#include <string.h>

#include "model/reading/record_access.h"

struct checker {
    const struct profile_content *content;
    struct problems *problems;
    int strings, frets; /* 0: unknown */
    bool changed;       /* a change was found */
};

static const struct reading *get(const struct checker *checker, enum field_id field)
{
    const struct reading_key key = reading_key_one(field);

    return record_get(&checker->content->record, &key);
}

static int count_of(const struct checker *checker, enum field_id field)
{
    return (int)maybe_or(record_entered_one(&checker->content->record, field), 0);
}

static size_t line_of(const struct checker *checker, const struct reading *reading)
{
    return profile_line_number(checker->content, &reading->key);
}

static void check_needed(const struct checker *checker)
{
    const bool treble = get(checker, FIELD_SCALE_TREBLE);
    const bool bass = get(checker, FIELD_SCALE_BASS);

    if (!get(checker, FIELD_FORMAT))
        problem_add(checker->problems, 0, PROBLEM_ERROR,
                    "the format is missing; [profile] needs format = 1");
    if (treble != bass)
        problem_add(checker->problems, 0, PROBLEM_ERROR,
                    "scale_treble and scale_bass are needed together");
    else if (!treble && !get(checker, FIELD_SCALE))
        problem_add(checker->problems, 0, PROBLEM_ERROR,
                    "the scale is missing; [board] needs scale = 25.5 in, or "
                    "scale_treble and scale_bass");
    else if (treble && get(checker, FIELD_SCALE))
        problem_add(checker->problems, line_of(checker, get(checker, FIELD_SCALE)), PROBLEM_WARNING,
                    "scale is given beside scale_treble and scale_bass");
    if (checker->content->newer)
        problem_add(checker->problems, line_of(checker, get(checker, FIELD_FORMAT)), PROBLEM_ERROR,
                    "unknown format; the file is read and never changed");
}

/* The highest fret that a reading names; -1 if it names none. */
static int highest_fret(const struct reading *reading)
{
    const struct field *field = field_get(reading->key.field);
    int fret = -1;

    if (field->per == PER_FRET || field->per == PER_STRING_FRET)
        return reading->key.fret;
    if (field->section == SECTION_BOARD && strstr(field->key, "_fret"))
        return reading->value.state == READING_BAD ? -1 : (int)reading->value.value;
    if (field->kind == KIND_FRETS && reading->value.state != READING_BAD)
        for (uint64_t frets = (uint64_t)reading->value.value; frets != 0; frets >>= 1)
            fret++;
    return fret;
}

static void check_existing(const struct checker *checker, const struct reading *reading)
{
    const int fret = highest_fret(reading);

    if (checker->strings > 0 && reading->key.string > checker->strings)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "there is no string %d; the instrument has %d", reading->key.string,
                    checker->strings);
    if (checker->frets > 0 && fret > checker->frets)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "there is no fret %d; the instrument has %d", fret, checker->frets);
}

static bool has_visit(const struct record *record, int visit)
{
    int next = visit - 1;

    return record_next_visit(record, &next) && next == visit;
}

static void check_change(struct checker *checker, const struct reading *reading)
{
    const struct maybe format = record_entered_one(&checker->content->record, FIELD_FORMAT);

    if (!checker->changed && format.given && format.value < RECORD_FORMAT_OF_CHANGES)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "changes of a visit need format = %d, so that no older sillet passes over them",
                    RECORD_FORMAT_OF_CHANGES);
    if (!has_visit(&checker->content->record, reading->key.visit))
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "there is no visit %d that could have changed this", reading->key.visit);
    checker->changed = true;
}

/* Passes and work within a visit must be numbered without gaps. So are visits, but one that was
 * taken out leaves its number free, because the sheets of the later ones were handed over. */
static void check_numbers(const struct checker *checker, const struct reading *reading,
                          const struct reading *before)
{
    const struct reading_key *key = &reading->key;
    const enum section section = field_get(key->field)->section;
    const bool same_visit = before && before->key.visit == key->visit;
    const bool same_section = same_visit && field_get(before->key.field)->section == section;
    const int last_visit = before ? before->key.visit : 0;
    const int last_part = same_section ? before->key.part : 0;

    if (key->visit > last_visit + 1)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_NOTE,
                    "there is no visit %d; one that was taken out leaves its number free",
                    key->visit - 1);
    if (key->part > last_part + 1)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "%s %d comes after %d; they are numbered from 1 without gaps",
                    section == SECTION_PASS ? "pass" : "work", key->part, last_part);
}

/* Compares each date with the one before; dates compare as texts. */
static const struct reading *check_date(const struct checker *checker,
                                        const struct reading *reading, const struct reading *date)
{
    if (reading->key.field != FIELD_VISIT_DATE || reading->value.state == READING_BAD)
        return date;
    if (date && strcmp(reading->text, date->text) < 0)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                    "the date is earlier than that of the visit before; visits are in "
                    "the order of their dates");
    return reading;
}

/* What was promised or handed over was brought in before; these follow the visit's date. */
static void check_later_date(const struct checker *checker, const struct reading *reading,
                             const struct reading *date)
{
    const enum field_id field = reading->key.field;

    if ((field != FIELD_VISIT_PROMISED && field != FIELD_VISIT_HANDED_OVER) || !date ||
        date->key.visit != reading->key.visit || reading->value.state == READING_BAD ||
        strcmp(reading->text, date->text) >= 0)
        return;
    problem_add(checker->problems, line_of(checker, reading), PROBLEM_WARNING,
                "the day is earlier than the date of its visit");
}

static void check_passes(const struct checker *checker, const struct reading *reading)
{
    if (reading->key.field != FIELD_VISIT_PASSES || reading->value.state == READING_BAD)
        return;
    const int passes = record_last_pass(&checker->content->record, reading->key.visit);
    if ((int)reading->value.value != passes)
        problem_add(checker->problems, line_of(checker, reading), PROBLEM_NOTE,
                    "passes says %d; the visit has %d", (int)reading->value.value, passes);
}

void profile_check(const struct profile_content *content, struct problems *problems)
{
    struct checker checker = {.content = content, .problems = problems};
    const struct record *record = &content->record;
    const struct reading *before = NULL, *date = NULL;

    checker.strings = count_of(&checker, FIELD_STRINGS);
    checker.frets = count_of(&checker, FIELD_FRETS);
    check_needed(&checker);
    for (size_t i = 0; i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        check_existing(&checker, reading);
        if (reading_key_is_change(&reading->key)) {
            check_change(&checker, reading);
            continue;
        }
        check_numbers(&checker, reading, before);
        date = check_date(&checker, reading, date);
        check_later_date(&checker, reading, date);
        check_passes(&checker, reading);
        before = reading;
    }
}
