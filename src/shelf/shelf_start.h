/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SHELF_SHELF_START_H
#define SILLET_SHELF_SHELF_START_H

#include <stdbool.h>
#include <stdint.h>

#include "session/lineedit.h"

/*
 * What a new instrument can begin as. The shop's own come first: instruments on file that are
 * nobody's, with no owner, no serial number and no visit. Behind them stand those that are built
 * in, which keep their numbers whatever is on file.
 */

struct shelf_list;

struct shelf_start {
    const char *title;
    const char *also; /* what else it is called, ; between; NULL for nothing */
    const char *file; /* one of the shop's own, in the folder; NULL: built in */
};

enum { SHELF_OWN_MAX = 32, SHELF_STARTS_MAX = SHELF_OWN_MAX + 64 };

struct shelf_starts {
    const struct shelf_start *built_in; /* not owned */
    int built_in_count, own_count;      /* of `all`, the shop's own stand first */
    struct shelf_start all[SHELF_STARTS_MAX];
    int found[SHELF_STARTS_MAX]; /* places in `all`: those that go with what is typed */
    int found_count, at;         /* `at` in found: the one in hand */
    struct lineedit typed;       /* a number, or words of a name */
};

/* Lists them all, nothing typed. The one taken in hand last still is; at first that is the first of
 * those built in. */
void shelf_starts_open(struct shelf_list *list);

/* Lists them anew after the items on file changed. */
void shelf_starts_take(struct shelf_list *list);

/* The one in hand; NULL only if there is none at all. */
const struct shelf_start *shelf_start_in_hand(const struct shelf_list *list);

/* Moves by that many, no further than to the ends. */
void shelf_starts_move(struct shelf_list *list, int by);

/*
 * A character. Digits alone are the number of one that is built in, as far as there are that many.
 * Anything else narrows the list to what goes with it best (name_match.h): "12 string". False,
 * nothing changed, if nothing does.
 */
bool shelf_starts_type(struct shelf_list *list, uint32_t key);

/* Deletes the last character; false if nothing is typed. */
bool shelf_starts_erase(struct shelf_list *list);

#endif
