/* SPDX-License-Identifier: MIT */
#include "model/reading/field.h"

#include <math.h>
#include <string.h>

#include "model/common/day.h"
#include "model/strings/pitch.h"
#include "model/reading/said_amount.h"

static enum status refuse(struct field_fault *ret_fault, enum status status, size_t at,
                          const char *words)
{
    if (ret_fault) {
        struct strbuf text = STRBUF(ret_fault->words);

        ret_fault->status = status;
        ret_fault->at = at;
        strbuf_add(&text, words);
    }
    return status;
}

/* In the unit of the cell, or of a file. */
static enum status refuse_range(const struct field *field, double value, enum unit bare,
                                struct field_fault *ret_fault)
{
    const double absurd = 1e6; /* nothing at a bench is that many of anything */
    const enum unit unit = bare == UNIT_NONE ? unit_pivot(field->quantity) : bare;
    char memory[sizeof ret_fault->words];
    struct strbuf words = STRBUF(memory);

    if (fabs(unit_from_pivot(unit, value)) < absurd)
        said_amount_add(&words, value, unit);
    else
        strbuf_add(&words, "such a number");
    strbuf_add(&words, " cannot be; ");
    said_limits_add(&words, field->possible_min, field->possible_max, unit);
    return refuse(ret_fault, STATUS_RANGE, 0, memory);
}

/* The verdict over a number that was understood. The comparisons refuse NaN. */
static enum status accept_number(const struct field *field, double value, enum unit bare,
                                 struct field_value *ret_value, struct field_fault *ret_fault)
{
    if (!(value >= field->possible_min && value <= field->possible_max))
        return refuse_range(field, value, bare, ret_fault);
    ret_value->value = value;
    ret_value->state =
        value >= field->usual_min && value <= field->usual_max ? READING_GOOD : READING_UNUSUAL;
    return STATUS_OK;
}

static enum status read_number(const struct field *field, const char *text, enum unit bare,
                               struct field_value *ret_value, struct field_fault *ret_fault)
{
    struct num_fault fault;
    double value;
    const enum status status = num_parse(text, field->quantity, bare, &value, &fault);

    if (status != STATUS_OK)
        return refuse(ret_fault, fault.status, fault.at, fault.what);
    return accept_number(field, value, bare, ret_value, ret_fault);
}

static enum status read_count(const struct field *field, const char *text,
                              struct field_value *ret_value, struct field_fault *ret_fault)
{
    int count;

    if (num_count(text, strlen(text), 1000000, &count) != STATUS_OK)
        return refuse(ret_fault, STATUS_SYNTAX, 0, "a whole number is wanted here");
    return accept_number(field, count, UNIT_PLAIN, ret_value, ret_fault);
}

static enum status read_choice(const struct field *field, const char *text,
                               struct field_value *ret_value, struct field_fault *ret_fault)
{
    char memory[sizeof ret_fault->words];
    struct strbuf words = STRBUF(memory);
    char choice[32];

    strbuf_add(&words, "one of these is wanted:");
    for (int k = 0; field_choice(field, k, choice, sizeof choice); k++) {
        if (strcmp(choice, text) == 0) {
            *ret_value = (struct field_value){.value = k, .state = READING_GOOD};
            return STATUS_OK;
        }
        strbuf_addf(&words, "%s %s", k ? "," : "", choice);
    }
    return refuse(ret_fault, STATUS_SYNTAX, 0, memory);
}

static enum status read_text(const struct field *field, const char *text,
                             struct field_value *ret_value, struct field_fault *ret_fault)
{
    const size_t length = strlen(text);

    if (length > (size_t)field->possible_max)
        return refuse(ret_fault, STATUS_TOO_LONG, (size_t)field->possible_max,
                      "this text is longer than a profile keeps");
    *ret_value = (struct field_value){
        .value = 0, .state = length > (size_t)field->usual_max ? READING_UNUSUAL : READING_GOOD};
    return STATUS_OK;
}

static enum status read_note(const char *text, struct field_value *ret_value,
                             struct field_fault *ret_fault)
{
    int semitone;

    if (pitch_parse(text, &semitone) != STATUS_OK)
        return refuse(ret_fault, STATUS_SYNTAX, 0,
                      "a note is wanted with its octave, as E2, F#3, Bb1");
    *ret_value = (struct field_value){.value = semitone, .state = READING_GOOD};
    return STATUS_OK;
}

enum status field_read_frets(const char *text, uint64_t *ret_frets)
{
    uint64_t frets = 0;

    for (text += strspn(text, " ,"); *text; text += strspn(text, " ,")) {
        const size_t length = strcspn(text, " ,");
        const char *dash = memchr(text, '-', length);
        const size_t first_length = dash ? (size_t)(dash - text) : length;
        int first, last;

        if (num_count(text, first_length, FRETS_MAX, &first) != STATUS_OK)
            return STATUS_SYNTAX;
        last = first;
        if (dash && num_count(dash + 1, length - first_length - 1, FRETS_MAX, &last) != STATUS_OK)
            return STATUS_SYNTAX;
        if (last < first)
            return STATUS_SYNTAX;
        for (int fret = first; fret <= last; fret++)
            frets |= (uint64_t)1 << fret;
        text += length;
    }
    *ret_frets = frets;
    return STATUS_OK;
}

static enum status read_frets(const char *text, struct field_value *ret_value,
                              struct field_fault *ret_fault)
{
    uint64_t frets;

    if (field_read_frets(text, &frets) != STATUS_OK)
        return refuse(ret_fault, STATUS_SYNTAX, 0,
                      "frets are wanted, 0 for the open string, as 0 3 5-7");
    /* FRETS_MAX + 1 bits are exact in a double's 53. */
    *ret_value = (struct field_value){.value = (double)frets, .state = READING_GOOD};
    return STATUS_OK;
}

/* Two digits at text, in min..max. */
static bool two_digits(const char *text, int min, int max)
{
    int number;

    return text[0] && text[1] && num_count(text, 2, max, &number) == STATUS_OK && number >= min;
}

/* 2026-03-02; returns its length, 0 when it is none. */
static size_t date_length(const char *text)
{
    struct day day;

    return day_parse(text, &day) ? strlen("2026-03-02") : 0;
}

/* 10:42 or 10:42:07, to the end of the text. */
static bool is_clock(const char *text)
{
    if (!two_digits(text, 0, 23) || text[2] != ':' || !two_digits(text + 3, 0, 59))
        return false;
    text += 5;
    if (*text == ':')
        return two_digits(text + 1, 0, 59) && text[3] == '\0';
    return *text == '\0';
}

static enum status read_date(const char *text, struct field_value *ret_value,
                             struct field_fault *ret_fault)
{
    if (date_length(text) == 0 || text[10] != '\0')
        return refuse(ret_fault, STATUS_SYNTAX, 0, "a date is wanted, as 2026-03-02");
    *ret_value = (struct field_value){.value = 0, .state = READING_GOOD};
    return STATUS_OK;
}

static enum status read_time(const char *text, struct field_value *ret_value,
                             struct field_fault *ret_fault)
{
    const size_t date = date_length(text);
    const bool joined = date > 0 && (text[date] == 'T' || text[date] == ' ');

    if (!is_clock(joined ? text + date + 1 : text))
        return refuse(ret_fault, STATUS_SYNTAX, 0,
                      "a time is wanted, as 10:42 or 2026-03-02T10:42");
    *ret_value = (struct field_value){.value = 0, .state = READING_GOOD};
    return STATUS_OK;
}

enum status field_read(const struct field *field, const char *text, enum unit bare,
                       struct field_value *ret_value, struct field_fault *ret_fault)
{
    switch (field->kind) {
    case KIND_TEXT:
        return read_text(field, text, ret_value, ret_fault);
    case KIND_RADIUS:
        if (strcmp(text, "flat") == 0) {
            *ret_value = (struct field_value){.value = 0, .state = READING_GOOD};
            return STATUS_OK;
        }
        return read_number(field, text, bare, ret_value, ret_fault);
    case KIND_NUMBER:
        return read_number(field, text, bare, ret_value, ret_fault);
    case KIND_COUNT:
        return read_count(field, text, ret_value, ret_fault);
    case KIND_CHOICE:
    case KIND_YESNO:
        return read_choice(field, text, ret_value, ret_fault);
    case KIND_NOTE:
        return read_note(text, ret_value, ret_fault);
    case KIND_FRETS:
        return read_frets(text, ret_value, ret_fault);
    case KIND_DATE:
        return read_date(text, ret_value, ret_fault);
    case KIND_TIME:
        return read_time(text, ret_value, ret_fault);
    }
    return refuse(ret_fault, STATUS_SYNTAX, 0, "this cannot be read");
}
