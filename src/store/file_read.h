/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_FILE_READ_H
#define SILLET_STORE_FILE_READ_H

#include "base/status.h"
#include "store/bytes.h"

/* The largest file that is read as a profile or settings file. */
enum { FILE_BYTES_MAX = 32 * 1024 * 1024 };

/*
 * Reads a whole regular file, links followed. Never waits and never reads more than
 * `max` bytes: a folder, pipe, socket or device is STATUS_NOT_REGULAR, more bytes than
 * that STATUS_TOO_LARGE. STATUS_NOT_FOUND, STATUS_NO_MEMORY; STATUS_IO with errno set
 * for every other failure. *ret_bytes is initialised here, on success only.
 */
enum status file_read(const char *path, size_t max, struct bytes *ret_bytes);

/* The same for a file that sillet makes by itself: a link is STATUS_NOT_REGULAR. */
enum status file_read_own(const char *path, size_t max, struct bytes *ret_bytes);

#endif
