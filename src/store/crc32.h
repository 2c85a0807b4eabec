/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_CRC32_H
#define SILLET_STORE_CRC32_H

#include <stddef.h>
#include <stdint.h>

/*
 * The CRC-32 of IEEE 802.3: polynomial 0x04C11DB7, bits reflected, initial value
 * and final exclusive-or 0xFFFFFFFF. The nine bytes "123456789" give 0xCBF43926.
 */
uint32_t crc32_of(const char *bytes, size_t length);

#endif
