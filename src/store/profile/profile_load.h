/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_LOAD_H
#define SILLET_STORE_PROFILE_PROFILE_LOAD_H

#include "base/status.h"
#include "model/reading/record.h"
#include "store/file_read.h"
#include "store/ini_text.h"
#include "store/problem.h"
#include "store/profile/ini_end.h"

/* For the store only: reads a profile's bytes as a record, and knows the lines of each reading. */

/* A key line that holds a reading, or a part of a long text: name, name.1, name.2 ... */
struct profile_line {
    uint64_t order; /* of its key in the record */
    struct reading_key key;
    uint32_t line; /* index into the text's lines */
    int chunk;     /* 0: the key itself */
};

struct profile_content {
    struct ini_text text;
    struct profile_line *lines; /* in the order of writing, then by chunk, then by line */
    size_t line_count;
    struct record record;
    enum ini_end end;
    bool newer; /* its format is later than PROFILE_FORMAT_MAX */
};

/* How a file spells RECORD_GONE, and a text of that word in a change. */
#define PROFILE_GONE         "absent"
#define PROFILE_GONE_AS_TEXT "%61bsent"

enum { PROFILE_FORMAT_MAX = RECORD_FORMAT_OF_CHANGES };

/*
 * Profiles are written only up to nine tenths of what can be read, so that a record which has
 * outgrown its file can still be kept aside and read back. The user is warned at half of that.
 */
enum {
    PROFILE_LINES_MAX = INI_LINES_MAX / 10 * 9,
    PROFILE_BYTES_MAX = FILE_BYTES_MAX / 10 * 9,
};
bool profile_is_long(const struct profile_content *content);
bool profile_is_too_long(const struct profile_content *content);

/*
 * Takes the bytes over on success and leaves `bytes` empty. Bad syntax, unknown names and bad
 * values become problems. Fails as ini_text_parse, with a problem that says why; STATUS_SYNTAX if
 * the text is not empty, has no good [end] and holds nothing of a profile; STATUS_NO_MEMORY,
 * STATUS_IO.
 */
enum status profile_load(struct bytes *bytes, struct problems *problems,
                         struct profile_content *ret_content);

/* The same for a text that should hold the `known` record: what its texts mean is not worked out
 * again where key and text are those of the file. */
enum status profile_load_back(struct bytes *bytes, const struct record *known,
                              struct profile_content *ret_content);

/*
 * The same for a look at some of the readings: `wanted` says which, by field. The record holds
 * these, and the first reading of each visit and of each string, so that it has as many of them.
 * What is damaged is so in the same way; nothing is reported.
 */
enum status profile_glance(struct bytes *bytes, const bool wanted[FIELD_COUNT_],
                           struct profile_content *ret_content);
void profile_content_done(struct profile_content *content); /* keeps errno */

/* How many of the lines come before `key` in the order of writing. */
size_t profile_lines_below(const struct profile_content *content, const struct reading_key *key);

/* The index of the first line of a reading; line_count if it has none. The lines of one reading
 * follow each other. */
size_t profile_find_line(const struct profile_content *content, const struct reading_key *key);

/* The line (from 1) that a reading's value comes from; 0 if it has none. */
size_t profile_line_number(const struct profile_content *content, const struct reading_key *key);

/* Adds problems for readings that contradict each other (profile_check.c). */
void profile_check(const struct profile_content *content, struct problems *problems);

#endif
