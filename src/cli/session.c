/* SPDX-License-Identifier: MIT */
#include "cli/session.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "app/app.h"
#include "store/shop.h"
#include "term/term.h"
#include "ui/ui.h"

enum {
    WAIT_MS = 1000,      /* so that a failed save is tried again without a key */
    RETRY_SECONDS = 5,
};

struct session {
    struct profile *profile;
    struct app app;
    struct frame frame;
    time_t tried; /* when a save was tried last */
};

static struct app_clock clock_now(void)
{
    struct app_clock clock = {.date = "1970-01-01", .time = "00:00"};
    const time_t now = time(NULL);
    struct tm local;

    if (localtime_r(&now, &local)) {
        (void)strftime(clock.date, sizeof clock.date, "%Y-%m-%d", &local);
        (void)strftime(clock.time, sizeof clock.time, "%H:%M", &local);
    }
    return clock;
}

/* The shop's gauges; a shop that never said is one of inches. */
static struct shop_units read_units(void)
{
    struct shop_units units = shop_units_inch();
    char *path = NULL;

    if (shop_path(&path) == STATUS_OK)
        (void)shop_read(path, NULL, &units);
    free(path);
    return units;
}

static void write_units(struct session *session)
{
    char *path = NULL;
    enum status status = shop_path(&path);

    if (status == STATUS_OK)
        status = shop_write(path, &session->app.units);
    if (status != STATUS_OK)
        app_say(&session->app, TONE_WARNING,
                "The gauges' units hold for now, but the shop's settings cannot be written.");
    free(path);
}

/* What a save that failed means for the work. */
static void add_failure(struct session *session, enum status status, int error,
                        struct strbuf *out)
{
    if (status == STATUS_CHANGED && profile_conflict_path(session->profile)) {
        /* It lies beside the profile; with its folders the name would not fit the line. */
        const char *path = profile_conflict_path(session->profile);
        const char *slash = strrchr(path, '/');

        strbuf_add(out, "Someone else changed the file; yours is kept as ");
        strbuf_add(out, shown_string(slash ? slash + 1 : path).text);
        return;
    }
    strbuf_add(out, "Not on disk yet: ");
    report_words(status, error, out);
    strbuf_add(out, ". The readings are held here; it is tried again.");
}

static void save(struct session *session)
{
    const struct app_clock clock = clock_now();
    char memory[APP_MESSAGE_MAX];
    struct strbuf message = STRBUF(memory);

    errno = 0;
    const enum status status = profile_save(session->profile, &session->app.record);
    const int error = errno;
    session->tried = time(NULL);
    if (status != STATUS_OK)
        add_failure(session, status, error, &message);
    /* A conflict copy holds every reading, so it counts as kept. */
    const bool kept = status == STATUS_CHANGED && profile_conflict_path(session->profile);
    app_kept(&session->app, kept ? STATUS_OK : status, &clock,
             status != STATUS_OK ? memory : NULL);
}

static void greet(struct session *session)
{
    const enum status editable = profile_editable(session->profile);
    const unsigned notices = profile_notices(session->profile);
    char memory[APP_MESSAGE_MAX];
    struct strbuf message = STRBUF(memory);

    if (editable == STATUS_LOCKED) {
        strbuf_add(&message, "Open for reading: in use by ");
        strbuf_add(&message, profile_lock_holder(session->profile));
    } else if (editable != STATUS_OK) {
        strbuf_add(&message, "Open for reading: ");
        report_words(editable, 0, &message);
    } else if (notices & PROFILE_END_WRONG) {
        strbuf_add(&message, "This file was changed by hand or damaged; it is kept as found "
                             "beside the first rewrite.");
    } else if (notices & PROFILE_NO_LOCK) {
        strbuf_add(&message, "Locks do not work in this folder: open it in one program only.");
    }
    if (message.length > 0)
        app_say(&session->app, TONE_WARNING, memory);
}

static enum status open_session(struct session *session, const char *path)
{
    struct profile_problems problems;
    struct record record;
    const struct shop_units units = read_units(), metric = shop_units_metric();

    profile_problems_init(&problems);
    errno = 0;
    enum status status = profile_open(path, PROFILE_TO_EDIT, &problems, &session->profile);
    if (status != STATUS_OK) {
        const int error = errno;

        report_problems(path, &problems, PROBLEM_ERROR, stderr);
        report_failure(path, status, error, stderr);
    }
    profile_problems_done(&problems);
    if (status == STATUS_OK)
        status = record_copy(profile_record(session->profile), &record);
    if (status == STATUS_OK)
        app_init(&session->app, &record, memcmp(&units, &metric, sizeof units) == 0, &units,
                 profile_editable(session->profile) != STATUS_OK);
    return status;
}

/* Makes the frame as large as the terminal. */
static enum status fit_frame(struct session *session)
{
    const struct term_traits traits = term_traits();

    if (session->frame.cells && session->frame.rows == traits.rows &&
        session->frame.columns == traits.columns)
        return STATUS_OK;
    frame_done(&session->frame);
    return frame_init(&session->frame, traits.rows, traits.columns);
}

static void carry_out(struct session *session, const struct app_effects *effects)
{
    if (effects->save)
        save(session);
    if (effects->units)
        write_units(session);
    if (effects->repaint)
        term_repaint();
    if (effects->suspend)
        term_suspend();
}

static void run_session(struct session *session)
{
    bool quit = false;

    while (!quit) {
        if (fit_frame(session) == STATUS_OK) {
            ui_compose(&session->app, term_traits().utf8, &session->frame);
            term_show(&session->frame);
        }
        const struct event event = term_wait(WAIT_MS);
        const struct app_clock clock = clock_now();
        const struct app_effects effects = app_handle(&session->app, &event, &clock);

        carry_out(session, &effects);
        if (session->app.keeping == KEEPING_FAILED &&
            time(NULL) - session->tried >= RETRY_SECONDS)
            save(session);
        quit = effects.quit;
    }
}

/* The last word on a record that could not be saved while the session ran. */
static enum exit_code end_session(struct session *session, const char *path)
{
    if (session->app.keeping != KEEPING_FAILED)
        return EXIT_GOOD;
    errno = 0;
    const enum status status = profile_save(session->profile, &session->app.record);
    if (status == STATUS_OK)
        return EXIT_GOOD;
    report_failure(path, status, errno, stderr);
    fputs("sillet: the readings since the last save are lost\n", stderr);
    return EXIT_CANNOT;
}

enum exit_code session_command(const char *path)
{
    struct session session = {.profile = NULL};
    const char *reason = NULL;
    enum exit_code code = EXIT_CANNOT;

    if (open_session(&session, path) != STATUS_OK) {
        profile_close(session.profile);
        return EXIT_CANNOT;
    }
    greet(&session);
    if (term_start(&reason) == STATUS_OK) {
        run_session(&session);
        term_stop();
        code = end_session(&session, path);
    } else {
        fprintf(stderr, "sillet: %s\n", reason);
    }
    frame_done(&session.frame);
    app_done(&session.app);
    profile_close(session.profile);
    return code;
}
