/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_INI_END_H
#define SILLET_STORE_PROFILE_INI_END_H

#include <stddef.h>

#include "store/bytes.h"

/*
 * The section that ends a profile. It tells a whole file from one that was cut short or changed:
 *
 *     [end]
 *     lines = 121           lines before this section
 *     crc32 = 1c291ca3      of all bytes before it, as 8 hexadecimal digits
 *
 * It is good only at the very end of the file, with its last line ended.
 */
enum ini_end {
    INI_END_GOOD,
    INI_END_MISSING,
    INI_END_WRONG, /* it does not match the bytes before it, or is not at the very end */
};

/* Checks the [end] of the bytes. *ret_line is its line from 1, or 0 if there is none. */
enum ini_end ini_end_check(const char *bytes, size_t length, size_t *ret_line);

/* Appends the section for the bytes before it. */
void ini_end_add(struct bytes *bytes, const char *line_end);

#endif
