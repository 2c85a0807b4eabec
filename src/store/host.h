/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_HOST_H
#define SILLET_STORE_HOST_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/strbuf.h"

/* Who is at work: for the names of temporary files and for lock files. */

/* Appends this machine's name; letters, digits, '.' and '_' only, at most 48 bytes. */
void host_add_name(struct strbuf *out);

/* Appends a user's name in the same letters, at most 32 bytes; "user_1001" for one without. */
void host_add_user(struct strbuf *out, uid_t user);

/* True when a process with this id certainly does not exist on this machine. */
bool host_process_gone(long pid);

#endif
