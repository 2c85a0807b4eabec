/* SPDX-License-Identifier: MIT */
#include "cli/session.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "app/app.h"
#include "cli/shop_settings.h"
#include "term/term.h"
#include "ui/ui.h"

enum {
    WAIT_MS = 1000, /* so that a failed save is tried again without a key */
    RETRY_SECONDS = 5,
};

struct session {
    struct profile *profile;
    struct app app;
    struct screen *screen;
    time_t tried; /* when a save was tried last */
};

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
static void add_failure(struct session *session, enum status status, int error, struct strbuf *out)
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
    const struct app_clock clock = screen_clock();
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
    app_kept(&session->app, kept ? STATUS_OK : status, &clock, status != STATUS_OK ? memory : NULL);
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
    } else if (!session->app.from_shelf) {
        (void)shop_settings_read(&message);
    }
    if (message.length > 0)
        app_say(&session->app, TONE_WARNING, memory);
}

static enum status begin_app(struct session *session, bool from_shelf)
{
    const struct shop_units units = shop_settings_read(NULL), metric = shop_units_metric();
    struct record record;
    enum status status = record_copy(profile_record(session->profile), &record);

    if (status == STATUS_OK) {
        app_init(&session->app, &record, memcmp(&units, &metric, sizeof units) == 0, &units,
                 profile_editable(session->profile) != STATUS_OK);
        session->app.from_shelf = from_shelf;
    }
    return status;
}

/* The caller closes the profile, also after a failure. */
static enum status open_session(struct session *session, const char *path,
                                enum profile_access access, bool from_shelf,
                                struct profile_problems *problems)
{
    errno = 0;
    const enum status status = profile_open(path, access, problems, &session->profile);

    return status == STATUS_OK ? begin_app(session, from_shelf) : status;
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
        if (screen_fit(session->screen)) {
            ui_compose(&session->app, term_traits().utf8, &session->screen->frame);
            term_show(&session->screen->frame);
        }
        const struct event event = term_wait(WAIT_MS);
        const struct app_clock clock = screen_clock();
        const struct app_effects effects = app_handle(&session->app, &event, &clock);

        carry_out(session, &effects);
        if (session->app.keeping == KEEPING_FAILED && time(NULL) - session->tried >= RETRY_SECONDS)
            save(session);
        quit = effects.quit;
    }
}

/* The last word on a record that could not be saved while the session ran. */
static enum status end_session(struct session *session)
{
    if (session->app.keeping != KEEPING_FAILED)
        return STATUS_OK;
    errno = 0;
    return profile_save(session->profile, &session->app.record);
}

static enum exit_code run_on_terminal(struct session *session, const char *path)
{
    const char *reason = NULL;

    if (term_start(&reason) != STATUS_OK) {
        fprintf(stderr, "sillet: %s\n", reason);
        return EXIT_CANNOT;
    }
    run_session(session);
    term_stop();
    const enum status status = end_session(session);
    if (status == STATUS_OK)
        return EXIT_GOOD;
    report_failure(path, status, errno, stderr);
    fputs("sillet: the readings since the last save are lost\n", stderr);
    return EXIT_CANNOT;
}

enum exit_code session_command(const char *path)
{
    struct screen screen = {.frame = {.rows = 0}};
    struct session session = {.screen = &screen};
    struct profile_problems problems;
    enum exit_code code = EXIT_CANNOT;

    profile_problems_init(&problems);
    const enum status status = open_session(&session, path, PROFILE_TO_EDIT, false, &problems);
    if (status == STATUS_OK) {
        greet(&session);
        code = run_on_terminal(&session, path);
        app_done(&session.app);
    } else {
        const int error = errno;

        report_problems(path, &problems, PROBLEM_ERROR, stderr);
        report_failure(path, status, error, stderr);
    }
    profile_problems_done(&problems);
    screen_done(&screen);
    profile_close(session.profile);
    return code;
}

enum session_end session_from_shelf(const char *path, enum profile_access access, enum leaf leaf,
                                    struct screen *screen, struct strbuf *words)
{
    struct session session = {.screen = screen};
    enum session_end end = SESSION_LEFT;
    enum status status = open_session(&session, path, access, true, NULL);
    int error = errno;

    if (status != STATUS_OK) {
        end = SESSION_NOT_OPENED;
        strbuf_add(words, "It cannot be opened: ");
    } else {
        app_take_leaf(&session.app, leaf);
        greet(&session);
        run_session(&session);
        status = end_session(&session);
        error = errno;
        if (status != STATUS_OK) {
            end = SESSION_LOST;
            strbuf_add(words, "The readings since the last save are lost: ");
        }
        app_done(&session.app);
    }
    if (status != STATUS_OK)
        report_words(status, error, words);
    profile_close(session.profile);
    return end;
}
