/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_READING_KEY_H
#define SILLET_MODEL_READING_READING_KEY_H

#include <stdbool.h>
#include <stdint.h>

#include "base/status.h"
#include "base/strbuf.h"
#include "model/reading/field.h"

/*
 * Names one reading: which field, of which visit and pass, on which string, at which
 * fret. Parts that a field does not have are 0. A reading of the instrument with a visit is a
 * change: it holds from that visit on. Kept small: a long record has a hundred thousand.
 */
struct reading_key {
    enum field_id field : 8;
    int16_t visit; /* 1.. for visit, pass and work sections, and for changes */
    int16_t part;  /* pass or work number, 1.. */
    int8_t string; /* 1 .. STRINGS_MAX: the [string.N] section's, or the key's own */
    int8_t fret;   /* 0 .. FRETS_MAX */
};

/* Keys for the common cases; the work lines of a visit are numbered as its passes are. */
struct reading_key reading_key_one(enum field_id field);
struct reading_key reading_key_string(enum field_id field, int string);
struct reading_key reading_key_visit(enum field_id field, int visit);
struct reading_key reading_key_pass(enum field_id field, int visit, int pass);
struct reading_key reading_key_pass_at(enum field_id field, int visit, int pass, int string,
                                       int fret);

/* Whether it is a change; and whether two keys differ at most in the visit of the change. */
bool reading_key_is_change(const struct reading_key *key);
bool reading_key_is_same_fact(const struct reading_key *a, const struct reading_key *b);

/* The same reading of the instrument as changed in a visit, or as first filed (visit 0). Any other
 * key stays as it is. */
struct reading_key reading_key_as_of(struct reading_key key, int visit);

/* Order of a record: by section with its numbers, then by field, string and fret. The changes of a
 * reading follow it in the order of visits. As one number, greater for the later key; and compared,
 * negative, zero or positive like memcmp. */
uint64_t reading_key_order(const struct reading_key *key);
int reading_key_compare(const struct reading_key *a, const struct reading_key *b);

/* Order of writing: the same, but the changes of a visit follow the visit's own readings. */
int reading_key_compare_written(const struct reading_key *a, const struct reading_key *b);

/* The word that a section begins with: "string". */
const char *reading_key_section_word(enum section section);

/* Spells the section ("visit.2.pass.1", "visit.2.string.1" for a change) and the key's name
 * ("nut_gap.3"). */
void reading_key_section(const struct reading_key *key, struct strbuf *out);
void reading_key_name(const struct reading_key *key, struct strbuf *out);

/* The reverse: STATUS_NOT_FOUND when no field goes by these names, or a change of it cannot be. */
enum status reading_key_parse(const char *section, const char *name, struct reading_key *ret_key);

/* A section as spelled, so that many names in it can be looked up. */
struct reading_section {
    enum section section;
    int numbers[2];
    int changed_in; /* the visit, of a section of changes; else 0 */
};

/* False when no section is spelled so, its numbers in range. */
bool reading_section_parse(const char *text, struct reading_section *ret_section);

/* As reading_key_parse. */
enum status reading_section_find(const struct reading_section *section, const char *name,
                                 struct reading_key *ret_key);

/* Whether these are the names of a change of what is the same in all visits. */
bool reading_key_is_correction(const char *section, const char *name);

/* Whether a section is spelled so, its numbers in range. */
bool reading_key_is_section(const char *section);

#endif
