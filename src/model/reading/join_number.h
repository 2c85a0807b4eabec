/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_JOIN_NUMBER_H
#define SILLET_MODEL_READING_JOIN_NUMBER_H

#include "model/reading/record.h"

/*
 * Common numbers for the visits, passes and work lines of two versions of a record, so that they
 * can be compared key by key. What both have gets one number; what one has alone a number of its
 * own: visits in the order of their days, passes and work lines in the order of their times. A
 * visit keeps the number it has unless it has to make room.
 */

enum join_version { JOIN_LEFT, JOIN_RIGHT, JOIN_BASE, JOIN_VERSIONS_ };

struct join_numbers {
    /* The common number of a version's visit, and back; 0: it has none. */
    short to[JOIN_VERSIONS_][VISITS_MAX + 2], from[JOIN_VERSIONS_][VISITS_MAX + 2];
    short partner[VISITS_MAX + 2]; /* of a visit on the right: the left one */
    /* The same for passes or work lines, of the visit that is being numbered. */
    short part_to[JOIN_VERSIONS_][WORKS_MAX + 2], part_from[JOIN_VERSIONS_][WORKS_MAX + 2];
    int last, last_part;
};

/*
 * Puts copies of the versions with common numbers into ret_records, in this order: left, right, and
 * base if there is one. The base is an earlier state of both, or NULL; of it, only what left or
 * right still has gets a number. What it has to say about identity counts too. STATUS_TOO_LARGE if
 * the numbers do not reach; STATUS_NO_MEMORY. After a failure the records are empty.
 */
enum status join_number(struct join_numbers *numbers,
                        const struct record *const versions[JOIN_VERSIONS_],
                        struct record ret_records[JOIN_VERSIONS_]);

/* A copy of another earlier state with the numbers that were given. Fails likewise. */
enum status join_number_earlier(struct join_numbers *numbers,
                                const struct record *const versions[JOIN_VERSIONS_],
                                const struct record *earlier, struct record *ret_record);

#endif
