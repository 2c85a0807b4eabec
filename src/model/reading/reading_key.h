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
 * fret. Parts that a field does not have are 0.
 */
struct reading_key {
    enum field_id field;
    int visit;  /* 1.. for visit, pass and work sections */
    int part;   /* pass or work number, 1.. */
    int string; /* 1 .. STRINGS_MAX: the [string.N] section's, or the key's own */
    int fret;   /* 0 .. FRETS_MAX */
};

/* Keys for the common cases. */
struct reading_key reading_key_one(enum field_id field);
struct reading_key reading_key_string(enum field_id field, int string);
struct reading_key reading_key_visit(enum field_id field, int visit);
struct reading_key reading_key_pass(enum field_id field, int visit, int pass);
struct reading_key reading_key_pass_at(enum field_id field, int visit, int pass, int string,
                                       int fret);

/* Order of writing: by section with its numbers, then by field, string and fret. As one number,
 * greater for the later key; and compared, negative, zero or positive like memcmp. */
uint64_t reading_key_order(const struct reading_key *key);
int reading_key_compare(const struct reading_key *a, const struct reading_key *b);

/* Spells the section ("visit.2.pass.1") and the key's name ("nut_gap.3"). */
void reading_key_section(const struct reading_key *key, struct strbuf *out);
void reading_key_name(const struct reading_key *key, struct strbuf *out);

/* The reverse: STATUS_NOT_FOUND when no field goes by these names. */
enum status reading_key_parse(const char *section, const char *name, struct reading_key *ret_key);

/* Whether a section is spelled so, its numbers in range. */
bool reading_key_is_section(const char *section);

#endif
