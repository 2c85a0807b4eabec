/* SPDX-License-Identifier: MIT */
#include "model/doubt/doubt_record.h"

#include <math.h>

#include "model/reading/place.h"
#include "model/strings/tension.h"

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
    const struct maybe before = record_entered(record, *key);

    if (!before.given || !is_other_board(key->field, before.value, value) ||
        place_current(record).pass == 0)
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BOARD, .beside = before.value};
}

static struct doubt doubt_fret(const struct record *record, double value)
{
    const struct maybe frets = record_entered_one(record, FIELD_FRETS);

    if (!frets.given || value <= frets.value)
        return (struct doubt){.kind = DOUBT_NONE};
    return (struct doubt){.kind = DOUBT_BEYOND, .beside = frets.value};
}

/* A string is thicker than the core in it, and a plain one is no cable. */
static struct doubt doubt_gauge(const struct record *record, const struct reading_key *key,
                                double value)
{
    const double plain_max_mm = 0.78; /* .030 in, 0.76 mm and the last digit of a packet */
    const bool is_core = key->field == FIELD_CORE;
    const struct maybe other =
        record_entered_string(record, is_core ? FIELD_GAUGE : FIELD_CORE, key->string);
    struct doubt doubt = {.kind = DOUBT_NONE, .beside = other.value};

    if (other.given && (is_core ? value >= other.value : value <= other.value))
        doubt.kind = is_core ? DOUBT_CORE : DOUBT_GAUGE;
    else if (!is_core && value > plain_max_mm &&
             record_choice_or(record, reading_key_string(FIELD_BUILD, key->string), -1) ==
                 BUILD_PLAIN)
        doubt.kind = DOUBT_PLAIN;
    return doubt;
}

static struct doubt doubt_air(const struct record *record, const struct reading_key *key,
                              double value)
{
    const bool driest = key->field == FIELD_HOME_HUMIDITY_LOW;
    const struct maybe other =
        record_entered_one(record, driest ? FIELD_HOME_HUMIDITY_HIGH : FIELD_HOME_HUMIDITY_LOW);
    const bool wrong = other.given && (driest ? value > other.value : value < other.value);

    return (struct doubt){.kind = wrong ? DOUBT_AIR : DOUBT_NONE, .beside = other.value};
}

struct doubt doubt_record_find(const struct record *record, const struct reading_key *key,
                               double value)
{
    switch (key->field) {
    case FIELD_JOIN_FRET:
    case FIELD_HEEL_FRET:
    case FIELD_ACTION_FRET:
    case FIELD_RELIEF_FRET:
    case FIELD_RELIEF_END_LOW:
    case FIELD_RELIEF_END_HIGH:
        return doubt_fret(record, value);
    case FIELD_HOME_HUMIDITY_LOW:
    case FIELD_HOME_HUMIDITY_HIGH:
        return doubt_air(record, key, value);
    case FIELD_GAUGE:
    case FIELD_CORE:
        return doubt_gauge(record, key, value);
    default:
        return doubt_board(record, key, value);
    }
}

/* The note of the nearest other string that has one. */
static struct maybe nearest_note(const struct record *record, const struct reading_key *key)
{
    struct maybe note = {.given = false};

    for (int away = 1; away < STRINGS_MAX && !note.given; away++) {
        if (key->string - away >= 1)
            note = record_entered_string(record, key->field, key->string - away);
        if (!note.given && key->string + away <= STRINGS_MAX)
            note = record_entered_string(record, key->field, key->string + away);
    }
    return note;
}

struct doubt doubt_note_find(const struct record *record, const struct reading_key *key,
                             double semitone)
{
    const double octave = 12, lowest = 18, highest = 88; /* F#0 of nine strings, E6 */
    const struct maybe held = record_entered(record, *key);
    const struct maybe near = nearest_note(record, key);

    if (held.given && fabs(semitone - held.value) >= octave)
        return (struct doubt){.kind = DOUBT_OCTAVE, .beside = held.value};
    if (held.given)
        return (struct doubt){.kind = DOUBT_NONE};
    if (near.given && fabs(semitone - near.value) > 2 * octave)
        return (struct doubt){.kind = DOUBT_OCTAVE, .beside = near.value};
    if (semitone < lowest)
        return (struct doubt){.kind = DOUBT_SMALL};
    return (struct doubt){.kind = semitone > highest ? DOUBT_LARGE : DOUBT_NONE};
}
