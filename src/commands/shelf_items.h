/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHELF_ITEMS_H
#define SILLET_COMMANDS_SHELF_ITEMS_H

#include "commands/report.h"
#include "shelf/shelf_list.h"
#include "store/shelf/shelf.h"

/* Passes what store knows about a shelf to app's list. */

/* Gives the list everything that is on file now. The shelf still owns the texts: call this again
 * after every shelf_scan. False if out of memory. */
bool shelf_items_give(const struct shelf *shelf, struct shelf_list *list);

/* Gives it the entry of that index again, after shelf_look_next. */
void shelf_items_give_one(const struct shelf *shelf, size_t at, struct shelf_list *list);

/* Opens the shelf in a folder; with NULL, the one in the data folder. Prints a failure. */
enum status shelf_items_open(const char *folder, struct shelf **ret_shelf);

/* The same to list what is on file; a folder given by name has to exist, and any that is there has
 * to be readable. */
enum status shelf_items_open_to_list(const char *folder, struct shelf **ret_shelf);

#endif
