/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_FEED_H
#define SILLET_STORE_INI_FEED_H

#include <iniparser/iniparser.h>

#include "base/status.h"
#include "store/bytes.h"

/*
 * Inside store only. Lets iniparser load bytes from memory. The caller frees the
 * dictionary with iniparser_freedict. Those of disk_status when there was no way to
 * hand the bytes over, STATUS_IO when iniparser refused them.
 */
enum status ini_feed(const struct bytes *bytes, dictionary **ret_dictionary);

#endif
