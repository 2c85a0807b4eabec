/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHELF_SHELF_FOLDER_H
#define SILLET_STORE_SHELF_SHELF_FOLDER_H

#include "store/shelf/shelf_entry.h"

/*
 * Inside store only. Lists the profiles of a folder, all unread: every name that ends in
 * .ini and does not begin with a dot, whatever it is. What is no file, or a link that leads
 * nowhere, is already read, with its status. *ret_entries is sorted.
 *
 * *ret_stamp is the folder's own stamp, taken before its names were read. STATUS_NOT_FOUND;
 * STATUS_NOT_REGULAR when it is no folder; STATUS_NO_MEMORY; STATUS_IO with errno set.
 */
enum status shelf_folder_list(const char *folder, struct shelf_entries *ret_entries,
                              struct shelf_stamp *ret_stamp);

/* True when nothing with this stamp changed in the last two seconds before `now`, so that
 * a later change cannot carry the same times. */
bool shelf_stamp_settled(const struct shelf_stamp *stamp, int64_t now);

#endif
