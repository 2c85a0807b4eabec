/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_FOLDER_H
#define SILLET_STORE_SHELF_SHELF_FOLDER_H

#include "store/shelf/shelf_entry.h"

/*
 * For this folder only. Lists every name that ends in .ini and does not begin with a dot, sorted.
 * All are unread except what is not a file and broken links, which have their status already.
 *
 * *ret_stamp is the folder's own stamp from before its names were read. STATUS_NOT_FOUND;
 * STATUS_NOT_REGULAR if it is not a folder; STATUS_NO_MEMORY; STATUS_IO with errno set.
 */
enum status shelf_folder_list(const char *folder, struct shelf_entries *ret_entries,
                              struct shelf_stamp *ret_stamp);

/* True if the stamp's times are more than two seconds before `now`, so that a later change cannot
 * have the same times. */
bool shelf_stamp_settled(const struct shelf_stamp *stamp, int64_t now);

#endif
