/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_FEED_H
#define SILLET_STORE_INI_FEED_H

#include <iniparser/iniparser.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * For ini_read.c. Lets iniparser load bytes from memory. The caller frees the dictionary with
 * iniparser_freedict. STATUS_IO if iniparser refused the bytes; the status of disk_status if they
 * could not be handed over.
 */
enum status ini_feed(const struct bytes *bytes, dictionary **ret_dictionary);

#endif
