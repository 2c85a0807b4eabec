/* SPDX-License-Identifier: MIT */
#include "run/session.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/shop_settings.h"
#include "leaf/leaves.h"
#include "run/greeting.h"
#include "run/session_inside.h"
#include "run/sheet_keep.h"
#include "run/shop_keep.h"
#include "run/templates_keep.h"
#include "screen/ui.h"
#include "session/app.h"
#include "session/app_place.h"
#include "store/paths.h"
#include "store/profile/aside.h"
#include "store/shelf/shelf_others.h"
#include "term/term.h"

enum {
    WAIT_MS = 1000, /* what a paste and a word end with, and how often a failed save is looked at */
};

static void write_paper(struct session *session, enum app_paper paper)
{
    const char *path = profile_path(session->profile);
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    const enum status status =
        paper == PAPER_RESET ? templates_keep(&session->app, path, &words)
                             : sheet_keep(&session->app, paper, path, term_traits().utf8, &words);

    app_say(&session->app, status == STATUS_OK ? TONE_NOTE : TONE_WARNING, memory);
}

/* Says the next greeting once the message line is free, so that none replaces another. */
static void greet(struct session *session)
{
    const struct app *app = &session->app;
    const struct greeted greeted = {.profile = session->profile,
                                    .access = session->access,
                                    .found = session->found,
                                    .from_shelf = app->from_shelf};
    char memory[APP_MESSAGE_MAX];
    struct strbuf message = STRBUF(memory);

    if (app->tone != TONE_NONE || app->overlay != OVERLAY_NONE || app->entry.text[0] != '\0' ||
        app_is_asked(app))
        return;
    if (greeting_next(&greeted, &session->told, &message))
        app_say(&session->app, TONE_WARNING, memory);
}

static enum status begin_app(struct session *session, bool from_shelf)
{
    const struct shop_units units = shop_settings_read(NULL), metric = shop_units_metric();
    char *path = NULL;
    struct record record;
    const enum aside_found found = aside_find(session->profile, &record, &path);
    enum status status =
        found == ASIDE_RECORD ? STATUS_OK : record_copy(profile_record(session->profile), &record);

    if (status == STATUS_OK)
        status = app_init(&session->app, &leaves_all, &record,
                          memcmp(&units, &metric, sizeof units) == 0, &units,
                          profile_editable(session->profile) != STATUS_OK);
    else
        record_init(&record);
    if (status != STATUS_OK) {
        record_done(&record);
        free(path);
        return status;
    }
    session->app.from_shelf = from_shelf;
    shop_keep_tell_kinds(&session->app);
    shop_keep_tell_prices(&session->app);
    session->found = profile_notices(session->profile);
    if (found == ASIDE_RECORD) {
        session->aside = path;
        session_bring_back(session);
        return status;
    }
    if (found != ASIDE_NONE)
        session_tell_aside(session, found, path);
    free(path);
    return status;
}

/* The caller closes the profile, also after a failure. */
static enum status open_session(struct session *session, const char *path,
                                enum profile_access access, bool from_shelf,
                                struct problems *problems)
{
    errno = 0;
    session->access = access;
    const enum status status = profile_open(path, access, problems, &session->profile);

    return status == STATUS_OK ? begin_app(session, from_shelf) : status;
}

static void carry_out(struct session *session, const struct app_effects *effects)
{
    if (effects->save)
        session_save(session);
    if (effects->units)
        shop_keep_units(&session->app);
    if (effects->targets != TARGETS_STAY)
        shop_keep_targets(&session->app, effects->targets);
    if (effects->price > 0)
        shop_keep_price(&session->app, effects->price - 1);
    if (effects->paper != PAPER_NONE)
        write_paper(session, effects->paper);
    if (effects->repaint)
        term_repaint();
    if (effects->suspend)
        term_suspend();
}

static void show(struct session *session)
{
    if (!screen_fit(session->screen))
        return;
    ui_compose(&session->app, term_traits().utf8, &session->screen->frame);
    term_show(&session->screen->frame);
}

/* Takes in what the other instruments say: those of the shelf that it was opened from, or else the
 * ones that the cache of its folder knows. */
static void look_around(struct session *session, const struct shelf_entries *shelf)
{
    const char *path = profile_path(session->profile);
    char kind[KIND_NAME_SIZE] = "";
    struct shelf_others others;

    (void)record_kind(&session->app.record, kind);
    if (shelf)
        shelf_others_read(shelf, paths_name_of(path), kind, &others);
    else
        shelf_others_read_cached(path, kind, &others);
    app_take_priors(&session->app, &others.priors);
    app_take_ticket(&session->app, &others.last_ticket);
    app_take_usuals(&session->app, &others.usuals);
}

/* Once that second after the last key is over, only a failed save is worth waking up for. */
static int wait_ms(const struct session *session, const struct event *last)
{
    return last->type != EVENT_NONE || session->app.keeping == KEEPING_FAILED ? WAIT_MS : -1;
}

static void run_session(struct session *session)
{
    struct event event = {.type = EVENT_NONE};
    bool quit = false;

    while (!quit) {
        greet(session);
        show(session);
        event = term_wait(wait_ms(session, &event));
        const struct app_clock clock = screen_clock();
        const struct app_effects effects = app_handle(&session->app, &event, &clock);

        carry_out(session, &effects);
        session_save_again(session);
        quit = effects.quit;
    }
}

static enum exit_code run_on_terminal(struct session *session, const char *path)
{
    const char *reason = NULL;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (term_start(&reason) != STATUS_OK) {
        fprintf(stderr, "sillet: %s\n", reason);
        return EXIT_CANNOT;
    }
    greet(session);
    show(session); /* which does not wait for what the others say */
    look_around(session, NULL);
    run_session(session);
    /* While the terminal is taken so are the signals: none cuts the last save short. */
    const enum status status = session_save_last(session, &words);
    const int error = errno;
    profile_close(session->profile);
    session->profile = NULL;
    term_stop();
    if (words.length > 0)
        fprintf(stderr, "sillet: %s\n", memory);
    if (status == STATUS_OK)
        return EXIT_GOOD;
    report_failure(path, status, error, stderr);
    session_tell_rest(session, status);
    return EXIT_CANNOT;
}

enum exit_code session_command(const char *path)
{
    struct screen screen = {.frame = {.rows = 0}};
    struct session session = {.screen = &screen};
    struct problems problems;
    enum exit_code code = EXIT_CANNOT;

    problems_init(&problems);
    const enum status status = open_session(&session, path, PROFILE_TO_EDIT, false, &problems);
    if (status == STATUS_OK) {
        code = run_on_terminal(&session, path);
        app_done(&session.app);
    } else {
        const int error = errno;

        report_problems(path, &problems, PROBLEM_ERROR, stderr);
        report_failure(path, status, error, stderr);
    }
    problems_done(&problems);
    screen_done(&screen);
    free(session.aside);
    profile_close(session.profile);
    return code;
}

enum session_end session_from_shelf(const char *path, const struct session_wish *wish,
                                    struct screen *screen, struct strbuf *words)
{
    struct session session = {.screen = screen};
    enum session_end end = SESSION_LEFT;
    enum status status = open_session(&session, path, wish->access, true, NULL);
    int error = errno;

    if (status != STATUS_OK) {
        end = SESSION_NOT_OPENED;
        strbuf_add(words, "It cannot be opened: ");
    } else {
        if (wish->shelf)
            look_around(&session, wish->shelf);
        app_take_leaf(&session.app, wish->leaf);
        if (wish->said[0])
            app_say(&session.app, TONE_NOTE, wish->said);
        run_session(&session);
        status = session_save_last(&session, words);
        error = errno;
        if (status != STATUS_OK) {
            end = SESSION_LOST;
            strbuf_add(words, session.app.aside
                                  ? "Not in its file, but kept aside until it is opened again: "
                                  : "The readings since the last save are lost: ");
        }
        app_done(&session.app);
    }
    if (status != STATUS_OK)
        report_words(status, error, words);
    free(session.aside);
    profile_close(session.profile);
    return end;
}
