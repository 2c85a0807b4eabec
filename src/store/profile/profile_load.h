/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_PROFILE_LOAD_H
#define SILLET_STORE_PROFILE_PROFILE_LOAD_H

#include "base/status.h"
#include "model/record.h"
#include "store/file_read.h"
#include "store/ini_text.h"
#include "store/problem.h"
#include "store/profile/ini_end.h"

/* Inside store only: a profile's bytes as a record, and which lines hold which reading. */

/* One key line that is a reading, or the part of a text that goes on in name.1, name.2. */
struct profile_line {
    struct reading_key key;
    size_t line; /* index into the text's lines */
    int chunk;   /* 0: the key itself */
};

struct profile_content {
    struct ini_text text;
    struct profile_line *lines; /* sorted by key, then chunk, then line */
    size_t line_count;
    struct record record;
    enum ini_end end;
    bool newer; /* names a format that is not PROFILE_FORMAT */
};

enum { PROFILE_FORMAT = 1 };

/*
 * What is written stays below what can be read, so that a record which does not fit any more
 * can still be kept aside and come back. Long before that it is said.
 */
enum {
    PROFILE_LINES_MAX = INI_LINES_MAX / 10 * 9,
    PROFILE_BYTES_MAX = FILE_BYTES_MAX / 10 * 9,
};
bool profile_is_long(const struct profile_content *content);
bool profile_is_too_long(const struct profile_content *content);

/*
 * Takes the bytes over on success (they are initialised anew). Syntax, unknown names and
 * bad values become problems. Failures: those of ini_text_parse (said in a problem),
 * STATUS_SYNTAX when nothing of a profile was found in a text that is not empty and has no
 * [end] that fits, STATUS_NO_MEMORY, STATUS_IO.
 */
enum status profile_load(struct bytes *bytes, struct problems *problems,
                         struct profile_content *ret_content);
void profile_content_done(struct profile_content *content); /* errno stays as it is */

/* How many of the lines hold a reading below `key`. */
size_t profile_lines_below(const struct profile_content *content, const struct reading_key *key);

/* The index of the first line of a reading; line_count when it has none. The lines of one
 * reading stand together. */
size_t profile_find_line(const struct profile_content *content, const struct reading_key *key);

/* The line (from 1) that a reading's value comes from; 0 when it has none. */
size_t profile_line_number(const struct profile_content *content, const struct reading_key *key);

/* Looks for what does not fit together in a whole record (profile_check.c). */
void profile_check(const struct profile_content *content, struct problems *problems);

#endif
