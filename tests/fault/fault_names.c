/* SPDX-License-Identifier: MIT */
#include "faults.h"

bool fault_can_lie(enum fault_call call)
{
    return call == FAULT_MODE || call == FAULT_SYNC || call == FAULT_RENAME || call == FAULT_LINK ||
           call == FAULT_UNLINK || call == FAULT_FOLDER;
}

const char *fault_name(enum fault_call call)
{
    static const char *const names[] = {"none",  "open",   "stat",   "read", "write",  "mode",
                                        "sync",  "close",  "rename", "link", "unlink", "lock",
                                        "memfd", "folder", "memory", "any"};

    return names[call];
}
