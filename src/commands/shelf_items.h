/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHELF_ITEMS_H
#define SILLET_COMMANDS_SHELF_ITEMS_H

#include "shelf/shelf_list.h"
#include "commands/report.h"
#include "store/shelf.h"

/* What store knows of a shelf, as app wants it told. */

/* Gives the list everything that is on file now. The texts stay the shelf's: this has to be
 * done again after every shelf_scan and shelf_read_next. False without memory. */
bool shelf_items_give(const struct shelf *shelf, struct shelf_list *list);

/* Opens the shelf in a folder; with NULL, that of the data folder. A failure is printed. */
enum status shelf_items_open(const char *folder, struct shelf **ret_shelf);

#endif
