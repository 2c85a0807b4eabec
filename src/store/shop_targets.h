/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_TARGETS_H
#define SILLET_STORE_SHOP_TARGETS_H

#include "model/reading/record.h"
#include "store/ini_read.h"
#include "store/problem.h"

/*
 * The shop's own targets for a kind of instrument, in the shop's settings:
 *
 *     [targets.steel-string]
 *     relief = .006 in
 *     action_bass = 5.5/64 in
 *     ...
 *
 * with the keys of [targets] in a profile, and the gauges' steps of [model] (shop_own.h). A new
 * instrument of that kind begins with them.
 */

/* One bit for each kind of instrument, by the choice's index. */
#define SHOP_TARGETS_BIT(kind) (1U << (kind))

/* Puts what the shop has for the record's kind into a record, in the shop's own words. What is not
 * understood is left out. *ret_count says how many readings these are. Fails as shop_file_load, and
 * with STATUS_NO_MEMORY. */
enum status shop_targets_take(const char *path, struct record *record, int *ret_count);

/* The kinds that the shop has targets for. Fails as shop_file_load. */
enum status shop_targets_kinds(const char *path, unsigned *ret_kinds);

/* Keeps the record's targets as the shop's for its kind, in place of those that were kept before.
 * STATUS_ABSENT if the record has no kind, or no target. Fails as shop_file_change. */
enum status shop_targets_keep(const char *path, const struct record *record);

/* Takes those for the record's kind out again. Fails as shop_file_change. */
enum status shop_targets_forget(const char *path, const struct record *record);

/* Adds what is wrong with a key's line; false if it is not one of a target. */
bool shop_targets_check(const struct ini_text *text, const struct ini_line *line,
                        struct problems *problems);

#endif
