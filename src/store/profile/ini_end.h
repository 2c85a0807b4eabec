/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_INI_END_H
#define SILLET_STORE_PROFILE_INI_END_H

#include <stddef.h>

#include "store/bytes.h"

/*
 * The section that closes a profile and tells a whole file from one that was cut short
 * or changed:
 *
 *     [end]
 *     lines = 121           lines before this section
 *     crc32 = 1c291ca3      of all bytes before it, as 8 hexadecimal digits
 *
 * It is whole only as the very last thing of the file, its last line ended.
 */
enum ini_end {
    INI_END_GOOD,
    INI_END_MISSING,
    INI_END_WRONG, /* there, but not what the bytes before it give, or not the last thing */
};

/* What the bytes' own [end] says. *ret_line: its line from 1, 0 when there is none. */
enum ini_end ini_end_check(const char *bytes, size_t length, size_t *ret_line);

/* Appends the section for what `bytes` holds, lines ended by `line_end`. */
void ini_end_add(struct bytes *bytes, const char *line_end);

#endif
