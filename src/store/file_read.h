/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_FILE_READ_H
#define SILLET_STORE_FILE_READ_H

#include "base/status.h"
#include "store/bytes.h"

/* The largest profile or settings file that is read. */
enum { FILE_BYTES_MAX = 32 * 1024 * 1024 };

/*
 * Reads a whole regular file and follows links. Never waits and never returns more than
 * `max` bytes. STATUS_NOT_REGULAR for a folder, pipe, socket or device; STATUS_TOO_LARGE for a
 * longer file; STATUS_NOT_FOUND; STATUS_NO_MEMORY; STATUS_IO with errno set for every other
 * failure. *ret_bytes is initialised on success only.
 */
enum status file_read(const char *path, size_t max, struct bytes *ret_bytes);

/* The same for a file that sillet makes itself: a link is STATUS_NOT_REGULAR. */
enum status file_read_own(const char *path, size_t max, struct bytes *ret_bytes);

#endif
