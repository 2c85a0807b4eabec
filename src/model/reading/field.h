/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_FIELD_H
#define SILLET_MODEL_READING_FIELD_H

#include <stdbool.h>
#include <stdint.h>

#include "base/num.h"
#include "base/status.h"
#include "base/strbuf.h"
#include "base/unit.h"

/*
 * The readings: what each is called, what it may hold, and how a text is taken as one.
 * The rows stand in field_table.h.
 */

enum {
    STRINGS_MAX = 12,
    FRETS_MAX = 36,
    VISITS_MAX = 9999,
    PASSES_MAX = 999,
    WORKS_MAX = 9999,
    FIELD_TEXT_MAX = 8000 /* bytes in the longest text field */
};

enum field_id {
#define FIELD(id, ...) FIELD_##id,
#include "model/reading/field_table.h"
#undef FIELD
    FIELD_COUNT_
};

/* The sections of a profile, in the order in which they are written. */
enum section {
    SECTION_PROFILE,
    SECTION_INSTRUMENT,
    SECTION_BOARD,
    SECTION_NUT,
    SECTION_BRIDGE,
    SECTION_NECK,
    SECTION_STRING, /* string.N */
    SECTION_TARGETS,
    SECTION_MODEL,
    SECTION_VISIT, /* visit.V */
    SECTION_PASS,  /* visit.V.pass.P */
    SECTION_WORK,  /* visit.V.work.K */
    SECTION_COUNT_
};

/* Whether a section describes the instrument, not a visit or what was read in it. */
bool section_is_of_instrument(enum section section);

/* What stands behind a key's name: nothing, a string, a fret, or both. */
enum field_per { PER_ONE, PER_STRING, PER_FRET, PER_STRING_FRET };

enum field_kind {
    KIND_TEXT,
    KIND_NUMBER,
    KIND_COUNT,
    KIND_CHOICE,
    KIND_YESNO,  /* a choice of no (0) and yes (1) */
    KIND_NOTE,   /* value: semitones, A4 = 69 */
    KIND_FRETS,  /* a list of frets; value: bit n set for fret n, exact in a double */
    KIND_RADIUS, /* a length, or flat (value 0) */
    KIND_DATE,   /* 2026-03-02 */
    KIND_TIME,   /* 10:42, or a date, T, and a time */
};

/* With what a length is read, which decides the unit of a bare number at the bench. */
enum field_measure {
    MEASURE_NONE,
    MEASURE_FEELER, /* leaves: thousandths, or hundredths of a mm */
    MEASURE_RULE,   /* action rule: 64ths, or mm */
    MEASURE_DEPTH,  /* saddle and bridge heights, read with the same rule: 64ths, or mm */
    MEASURE_GAUGE,  /* string diameters: thousandths, or mm */
    MEASURE_SMALL,  /* calliper sizes, and threads (1/32 in is 32 to the inch): inches, or mm */
    MEASURE_LONG,   /* scale and the like: inches, or mm */
    MEASURE_TEMPERATURE, /* F, or C */
    MEASURE_COUNT_
};

/* The gauge whose step makes a reading's uncertainty, or that a target is set to. */
enum field_step { STEP_NONE, STEP_FEELER, STEP_RULE, STEP_TUNER };

struct field {
    enum field_id id;
    enum section section;
    enum field_per per;
    const char *key;
    const char *label;
    enum field_kind kind;
    enum quantity_kind quantity;
    enum field_measure measure;
    enum field_step step;
    double possible_min, possible_max;
    double usual_min, usual_max;
    const char *fallback; /* "" for none */
    const char *choices;  /* "a|b|c", "" for none */
    const char *help;
};

/* Which units a shop's gauges read in, by measure. */
struct shop_units {
    enum unit bare[MEASURE_COUNT_];
};

/* The units of an inch shop and of a metric one. */
struct shop_units shop_units_inch(void);
struct shop_units shop_units_metric(void);

/* The row of a field. `id` must be one. */
const struct field *field_get(enum field_id id);

/* Whether a number is typed for it, with a unit if it has one; a count is none. */
bool field_is_number(const struct field *field);

/* Whether the instrument has it from a visit on, until another visit changes it; false for what is
 * the same in all visits (correction_table.h), and for a visit's own fields. */
bool field_may_change(enum field_id id);

/* The unit that a bare number typed for this field takes in that shop. */
enum unit field_bare_unit(const struct field *field, const struct shop_units *units);

/* The unit that a bare number takes in a file: UNIT_NONE (refused) for a length. */
enum unit field_file_unit(const struct field *field);

/* The k-th choice (from 0), as a NUL-terminated copy in `out`; false past the last. */
bool field_choice(const struct field *field, int k, char *out, size_t size);

enum reading_state {
    READING_GOOD,
    READING_UNUSUAL, /* possible, but outside the usual: worth a second look */
    READING_BAD,     /* not understood or impossible: kept as text, never used */
    READING_GONE,    /* a change which says that nothing holds any more */
};

/* What a text turned out to be. */
struct field_value {
    double value; /* pivot unit; choice index; see enum field_kind. 0 for texts, dates */
    enum reading_state state;
};

/* Why a text was refused. */
struct field_fault {
    enum status status;
    size_t at;       /* byte offset in the text, where it applies */
    char words[160]; /* a sentence: what is wrong; what is accepted */
};

/*
 * Takes `text` as an entry for a field; bare numbers get the unit `bare`
 * (field_bare_unit at the bench, field_file_unit in a file). On success *ret_value is
 * good or unusual. Refusals: STATUS_SYNTAX, STATUS_UNIT, STATUS_RANGE, STATUS_TOO_LONG.
 */
enum status field_read(const struct field *field, const char *text, enum unit bare,
                       struct field_value *ret_value, struct field_fault *ret_fault);

/*
 * Takes a fret list ("0 3 5-7", commas or blanks) as a set, bit n for fret n.
 */
enum status field_read_frets(const char *text, uint64_t *ret_frets);

#endif
