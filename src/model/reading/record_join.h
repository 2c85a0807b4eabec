/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_RECORD_JOIN_H
#define SILLET_MODEL_READING_RECORD_JOIN_H

#include "model/reading/join_number.h"

/*
 * Puts two versions of one record together, cell by cell. What both hold alike is held on. What
 * differs is listed, so that somebody can choose. What only one side has is proposed, a visit, a
 * pass or a work line as a whole; where an earlier state of both is known, so is what only one side
 * has changed since, and what one side has taken out since is open.
 *
 *     status = record_join_begin(join, &left, &right, &base);
 *     count = record_join_list(join, differences, room);
 *     ... choose a side where differences[i].side is JOIN_OPEN, and wherever wanted ...
 *     status = record_join_make(join, differences, count, &joined);
 *     record_join_done(join);
 */

/* Whether a record knows of an earlier state: of what that state brought after the one before it,
 * more stands in the record than of what it replaced. */
bool join_knows(const struct record *record, const struct record *state,
                const struct record *before);

enum join_what { JOIN_CELL, JOIN_VISIT, JOIN_PASS, JOIN_WORK };

/* As which version has it, as both do one after the other, or not chosen yet. */
enum join_side { JOIN_AS_LEFT, JOIN_AS_RIGHT, JOIN_AS_BOTH, JOIN_OPEN };

/* A cell whose texts differ or that only one side has; or what only one side has as a whole, with
 * the key of its first reading. All keys have the numbers of the joined record. */
struct join_difference {
    enum join_what what;
    struct reading_key key;
    enum join_side side;
    bool asked; /* no side was proposed */
};

struct record_join {
    const struct record *version[JOIN_VERSIONS_]; /* as given */
    struct record record[JOIN_VERSIONS_];         /* with common numbers; no base: empty */
    struct join_numbers numbers;
};

/* It is large: let the caller allocate it. `base` may be NULL. The records must stay as they are
 * until record_join_done. Fails as join_number, and is empty then. */
enum status record_join_begin(struct record_join *join, const struct record *left,
                              const struct record *right, const struct record *base);
void record_join_done(struct record_join *join);

/* Lists at most `room` of the differences, in the order of the record; returns how many there are.
 * What the program counts by itself (the format, how many passes) is not listed. */
size_t record_join_list(const struct record_join *join, struct join_difference *ret_differences,
                        size_t room);

/* Takes back what was proposed because of the base if it is what stood there in an earlier state
 * still: it may be no change at all but what one side never heard of. STATUS_NO_MEMORY. */
enum status record_join_doubt(struct record_join *join, const struct record *earlier,
                              struct join_difference *differences, size_t count);

/* Chooses one side wherever both have something, or nothing was proposed. What one side has added
 * stays. */
void record_join_choose_all(const struct record_join *join, enum join_side side,
                            struct join_difference *differences, size_t count);

/* How many are open. */
size_t join_count_open(const struct join_difference *differences, size_t count);

/* A side's reading of a difference; NULL if it has none. */
const struct reading *record_join_reading(const struct record_join *join,
                                          const struct join_difference *difference,
                                          enum join_version version);

/* How many readings a side has of it. */
size_t record_join_size(const struct record_join *join, const struct join_difference *difference,
                        enum join_version version);

/* Whether both texts can stand one after the other: notes that are not too long for that. */
bool record_join_may_be_both(const struct record_join *join,
                             const struct join_difference *difference);

/* The joined record; what is open stays as on the left. STATUS_NO_MEMORY. */
enum status record_join_make(const struct record_join *join,
                             const struct join_difference *differences, size_t count,
                             struct record *ret_record);

#endif
