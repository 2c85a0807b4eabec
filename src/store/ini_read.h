/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_INI_READ_H
#define SILLET_STORE_INI_READ_H

#include "base/status.h"
#include "store/ini_text.h"

/*
 * Gives each key line whose own name and section name are usable its value, read by iniparser. That
 * gets the lines that ini_text understood, as copies in memory: the file itself is opened only
 * once, and what was checked is what is parsed. Prints nothing. Values that are written the same
 * are mostly one text.
 *
 * STATUS_NO_MEMORY, also if iniparser dropped a value for lack of memory; STATUS_FULL or STATUS_IO
 * with errno set if the copy could not be handed to iniparser. The text is then to be freed.
 */
enum status ini_read(struct ini_text *text);

#endif
