/* SPDX-License-Identifier: MIT */
#ifndef SILLET_RUN_SESSION_INSIDE_H
#define SILLET_RUN_SESSION_INSIDE_H

#include <time.h>

#include "run/screen.h"
#include "session/app.h"
#include "store/profile/aside.h"

/* What the files of a running session share. */

struct session {
    struct profile *profile;
    enum profile_access access;
    struct app app;
    struct screen *screen;
    time_t tried;   /* when a save was last tried, by the monotonic clock */
    char *aside;    /* the file that holds what could not be saved; NULL if none */
    unsigned found; /* the profile's notices when it was opened */
    size_t told;    /* how many greetings are done */
};

/* Saves the record, and tells the session how that went; what cannot be saved is kept aside until
 * it can. And tries again, some seconds after a save that failed. */
void session_save(struct session *session);
void session_save_again(struct session *session);

/* The last try to save a record that could not be saved while the session ran. If a conflict copy
 * keeps it, `words` tells of that. After a failure errno says why. */
enum status session_save_last(struct session *session, struct strbuf *words);

/* Says on standard error what has become of readings that the last try did not save. */
void session_tell_rest(const struct session *session, enum status status);

/* First of all, saves what an earlier session could not; or reports what that kept aside and this
 * one has not taken in. */
void session_bring_back(struct session *session);
void session_tell_aside(struct session *session, enum aside_found found, const char *path);

#endif
