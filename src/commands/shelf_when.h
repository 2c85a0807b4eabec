/* SPDX-License-Identifier: MIT */
#ifndef SILLET_COMMANDS_SHELF_WHEN_H
#define SILLET_COMMANDS_SHELF_WHEN_H

#include "commands/report.h"
#include "shelf/shelf_list.h"

/*
 * Gives each instrument that is found the facts of how it was left by a day (as_left_by), read from
 * its profile, in place of those that it has; blank for one that was not on file yet. They are the
 * caller's to free once the list is done. EXIT_FINDINGS, after a message for each, where profiles
 * cannot be read, and EXIT_CANNOT if out of memory.
 */
enum exit_code shelf_when_take(struct shelf_list *list, int day, struct shelf_facts **ret_facts);

#endif
