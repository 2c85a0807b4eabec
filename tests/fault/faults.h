/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_FAULTS_H
#define SILLET_TESTS_FAULTS_H

#include <stdbool.h>

/*
 * System calls that fail on demand. Linked in with -Wl,--wrap, so that only
 * calls from our own objects are caught.
 */
enum fault_call {
    FAULT_NONE,
    FAULT_OPEN,
    FAULT_STAT,
    FAULT_READ,
    FAULT_WRITE,
    FAULT_MODE,
    FAULT_SYNC,
    FAULT_CLOSE, /* closes, and says that it failed */
    FAULT_RENAME,
    FAULT_LINK,
    FAULT_UNLINK,
    FAULT_LOCK,
    FAULT_MEMFD,
    FAULT_FOLDER, /* opened, read, made */
    FAULT_MEMORY,
    FAULT_COUNT_,
    FAULT_ANY = FAULT_COUNT_, /* every one but FAULT_MEMORY */
};

enum fault_way {
    FAULT_ONCE,  /* the nth call fails, the others work */
    FAULT_STAYS, /* so do all after it */
    FAULT_LIES,  /* the nth call is done, and says that it failed, as over a network it may */
    FAULT_KILL,  /* the process is killed before the nth call */
    FAULT_SHORT, /* writes and reads do at most three bytes, every other time EINTR */
};

/* From now on the nth call of that kind fails with that errno. */
void fault_arm(enum fault_call call, enum fault_way way, int nth, int error);

/* The system has no such calls at all, beside what is armed; FAULT_NONE: it has them all. */
void fault_lack(enum fault_call call, int error);

/* Everything works again; returns how many calls of that kind there were meanwhile. */
int fault_disarm(void);

/* Whether calls of that kind change something, so that FAULT_LIES is another thing than
 * FAULT_ONCE. */
bool fault_can_lie(enum fault_call call);

/* How many calls of a kind there were in all. */
int fault_seen(enum fault_call call);

const char *fault_name(enum fault_call call);

#endif
