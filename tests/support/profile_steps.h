/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_PROFILE_STEPS_H
#define SILLET_TESTS_PROFILE_STEPS_H

#include "base/strbuf.h"
#include "store/profile/profile.h"

/* Steps that the tests of profiles share. Every failure fails the test. */

/* A profile as written by hand: a format, a scale, no [end]. */
extern const char steps_tiny[];

struct reading_key steps_key(const char *section, const char *name);
void steps_put(struct record *record, const char *section, const char *name, const char *text);
void steps_drop(struct record *record, const char *section, const char *name);

struct profile *steps_open(const char *path);

/* Opens a profile, and copies its record for changes. */
struct profile *steps_open_to_change(const char *path, struct record *ret_record);
void steps_save(struct profile *profile, struct record *record);
void steps_close(struct profile *profile, struct record *record);

/* Appends the text's [end], computed independently of the store. */
void steps_add_end(struct strbuf *text);

/* Asserts that the file holds `body` and its [end]; or writes such a file. */
void steps_assert_saved(const char *path, const char *body);
void steps_write_whole(const char *path, const char *body);

#endif
