/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_HOST_H
#define SILLET_STORE_HOST_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/strbuf.h"

/* This machine and its users, for lock files and the names of temporary files. */

/* Appends this machine's name: at most 48 bytes, letters, digits and '.'; '_' for any other. */
void host_add_name(struct strbuf *out);

/* Appends a user's name in the same characters, at most 32 bytes; "user_1001" if the user has no
 * name. */
void host_add_user(struct strbuf *out, uid_t user);

/* True when a process with this id certainly does not exist on this machine. */
bool host_process_gone(long pid);

#endif
