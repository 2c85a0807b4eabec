/* SPDX-License-Identifier: MIT */
#include "run/session_inside.h"

#include <errno.h>
#include <stdio.h>

#include "commands/report.h"
#include "run/greeting.h"
#include "store/paths.h"

enum { RETRY_SECONDS = 5 };

static time_t steady_seconds(void)
{
    struct timespec now;

    return clock_gettime(CLOCK_MONOTONIC, &now) == 0 ? now.tv_sec : 0;
}

/* Whether a save that ended so keeps every reading: in the file, or in a conflict copy. */
static bool is_kept(const struct session *session, enum status status)
{
    return status == STATUS_OK ||
           (status == STATUS_CHANGED && profile_conflict_path(session->profile));
}

static void add_conflict(const struct session *session, struct strbuf *out)
{
    /* Only the name: it is beside the profile, and the whole path would not fit the line. */
    const char *name = paths_name_of(profile_conflict_path(session->profile));

    strbuf_add(out, "Someone else changed the file; yours is kept as ");
    strbuf_add(out, shown_string(name).text);
}

/* What a failed save means for the user. */
static void add_failure(const struct session *session, enum status status, int error,
                        struct strbuf *out)
{
    strbuf_add(out, "Not on disk yet: ");
    report_words(status, error, out);
    strbuf_add(out, session->app.aside ? ". The readings are kept aside; it is tried again."
                                       : ". The readings are held here; it is tried again.");
}

/* Keeps a record that cannot be saved in another place until it can. */
static void keep_aside(struct session *session)
{
    session->app.aside =
        aside_keep(session->profile, &session->app.record, &session->aside) == STATUS_OK;
}

/* Adds what to report after a successful save, if there is anything. */
static void add_notice(const struct session *session, unsigned before, struct strbuf *out)
{
    const unsigned notices = profile_notices(session->profile);

    if (notices & PROFILE_WRITTEN_ANEW) {
        strbuf_add(out, "The file was gone from its folder; it has been written again, whole.");
    } else if (notices & ~before & PROFILE_NO_GENERATION) {
        strbuf_add(out, "Kept, but the state before it was not kept as an earlier one: ");
        report_words(profile_generation_status(session->profile), 0, out);
    } else if (notices & ~before & PROFILE_LONG) {
        greeting_add_long(out);
    }
}

void session_save(struct session *session)
{
    const struct app_clock clock = screen_clock();
    char memory[APP_MESSAGE_MAX];
    struct strbuf message = STRBUF(memory);

    const unsigned before = profile_notices(session->profile);
    errno = 0;
    const enum status status = profile_save(session->profile, &session->app.record);
    const int error = errno;
    session->tried = steady_seconds();
    const bool kept = is_kept(session, status);
    if (kept)
        aside_drop(&session->aside);
    else
        keep_aside(session);
    if (!kept)
        add_failure(session, status, error, &message);
    else if (status != STATUS_OK)
        add_conflict(session, &message);
    else
        add_notice(session, before, &message);
    app_kept(&session->app, kept ? STATUS_OK : status, &clock, message.length > 0 ? memory : NULL);
}

void session_save_again(struct session *session)
{
    if (session->app.keeping == KEEPING_FAILED &&
        steady_seconds() - session->tried >= RETRY_SECONDS)
        session_save(session);
}

void session_tell_aside(struct session *session, enum aside_found found, const char *path)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf message = STRBUF(memory);

    if (found == ASIDE_BESIDE)
        strbuf_addf(&message, "Readings kept aside for an earlier state are beside it now: %s",
                    shown_string(paths_name_of(path)).text);
    else if (found == ASIDE_UNSEEN)
        strbuf_addf(&message, "Cannot tell whether readings were kept aside: %s",
                    shown_string(path).text);
    else
        strbuf_addf(&message, "Readings that are not in this file yet: %s",
                    shown_string(path).text);
    app_say(&session->app, TONE_WARNING, memory);
}

void session_bring_back(struct session *session)
{
    session_save(session);
    if (session->app.keeping == KEEPING_KEPT)
        app_say(&session->app, TONE_NOTE,
                "Readings that could not be saved last time are back, and on disk now.");
}

enum status session_save_last(struct session *session, struct strbuf *words)
{
    if (session->app.keeping != KEEPING_FAILED)
        return STATUS_OK;
    errno = 0;
    const enum status status = profile_save(session->profile, &session->app.record);
    const int error = errno;
    if (is_kept(session, status)) {
        aside_drop(&session->aside);
        if (status != STATUS_OK)
            add_conflict(session, words);
        return STATUS_OK;
    }
    if (!session->app.aside)
        keep_aside(session);
    errno = error;
    return status;
}

void session_tell_rest(const struct session *session, enum status status)
{
    if (!session->app.aside) {
        fputs("sillet: the readings since the last save are lost\n", stderr);
        return;
    }
    fprintf(stderr, "sillet: the readings since the last save are kept in %s\n", session->aside);
    fputs(status == STATUS_TOO_LARGE
              ? "sillet: no file can hold more; go on in a copy (shelf: * f)\n"
              : "sillet: they are saved when the file is opened the next time\n",
          stderr);
}
