/* SPDX-License-Identifier: MIT */
#include "cli/shelf_session.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cli/session.h"
#include "cli/shelf_items.h"
#include "cli/shop_settings.h"
#include "store/paths.h"
#include "store/preset.h"
#include "store/shelf_change.h"
#include "term/term.h"
#include "ui/shelf_view.h"

enum {
    WAIT_MS = 1000, /* so that what others file is seen without a key */
    READ_MS = 40,   /* of reading between two looks at the keys */
    SHOW_MS = 250,  /* between two pictures of a list that is being read */
    PRESETS_MAX = 64,
};

struct shelf_session {
    struct shelf *shelf;
    struct shelf_list list;
    struct screen screen;
    const char *presets[PRESETS_MAX]; /* titles, for the list */
    bool outdated;                    /* cards were read that the list has not been given yet */
    long long shown_ms;
    char loss[APP_MESSAGE_MAX + 64]; /* the last that was lost; "" for nothing */
};

static long long now_ms(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* --- what is on file --- */

/* A folder that is not there yet is an empty shelf; any other that cannot be listed says so. */
static void tell_failure(struct shelf_session *session)
{
    const enum status status = shelf_status(session->shelf);
    struct strbuf failure = STRBUF(session->list.failure);

    strbuf_clear(&failure);
    if (status == STATUS_OK || status == STATUS_NOT_FOUND)
        return;
    strbuf_add(&failure, "This folder cannot be listed: ");
    if (status == STATUS_NOT_REGULAR)
        strbuf_add(&failure, "it is a file");
    else
        report_words(status, shelf_error(session->shelf), &failure);
    strbuf_add(&failure, ". Once it can, its instruments appear here.");
}

static void give(struct shelf_session *session)
{
    session->outdated = false;
    if (!shelf_items_give(session->shelf, &session->list))
        shelf_list_say(&session->list, TONE_WARNING, "Out of memory: the list cannot be shown.");
    tell_failure(session);
}

/* The list's texts may be gone afterwards: it has to be given the new ones before it is shown
 * or handles anything. */
static void read_for_a_while(struct shelf_session *session)
{
    const long long end = now_ms() + READ_MS;

    while (now_ms() < end && shelf_read_next(session->shelf))
        session->outdated = true;
    if (shelf_unread(session->shelf) == 0)
        shelf_keep_cache(session->shelf);
}

static void freshen(struct shelf_session *session)
{
    if (session->outdated)
        give(session);
}

/* What changed last is read first, so that the list seldom shows a file without its card. */
static void rescan(struct shelf_session *session)
{
    shelf_scan(session->shelf);
    read_for_a_while(session);
    give(session);
}

/* --- what is done --- */

static char *path_of(const struct shelf_session *session, const char *file)
{
    return paths_join(shelf_folder(session->shelf), file);
}

static void tell_end(struct shelf_session *session, enum session_end end, const char *file,
                     const char *words)
{
    if (end == SESSION_LEFT)
        return;
    shelf_list_say(&session->list, TONE_WARNING, words);
    if (end == SESSION_LOST) {
        struct strbuf loss = STRBUF(session->loss);

        strbuf_addf(&loss, "%s: %s", shown_string(file).text, words);
    }
}

static void open_file(struct shelf_session *session, const char *given, enum leaf leaf)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    char *file = strdup(given), *path = file ? path_of(session, file) : NULL;

    if (path) {
        const enum session_end end = session_from_shelf(path, leaf, &session->screen, &words);

        rescan(session);
        shelf_list_choose(&session->list, file);
        tell_end(session, end, file, memory);
    } else {
        shelf_list_say(&session->list, TONE_WARNING, status_text(STATUS_NO_MEMORY));
    }
    free(path);
    free(file);
}

/* How a change of the shelf failed, in words. */
static void say_failure(struct shelf_session *session, const char *what, enum status status,
                        int error)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add(&words, what);
    if (status == STATUS_READ_ONLY)
        strbuf_add(&words, "the folder may not be written");
    else
        report_words(status, error, &words);
    shelf_list_say(&session->list, TONE_WARNING, memory);
}

static enum status file_preset(struct shelf_session *session, char **ret_file)
{
    struct record record;
    enum status status = preset_record(preset_get(session->list.preset), &record);

    if (status != STATUS_OK)
        return status;
    status =
        shelf_file_record(shelf_folder(session->shelf), &record, session->list.name.text, ret_file);
    const int kept_errno = errno;
    record_done(&record);
    errno = kept_errno;
    return status;
}

/* What is new is opened at once. */
static void file_new(struct shelf_session *session, bool copy)
{
    char *file = NULL;

    errno = 0;
    const enum status status = copy ? shelf_copy(shelf_folder(session->shelf), session->list.target,
                                                 session->list.name.text, &file)
                                    : file_preset(session, &file);
    if (status != STATUS_OK) {
        say_failure(session, "Nothing was filed: ", status, errno);
        return;
    }
    open_file(session, file, LEAF_BENCH);
    free(file);
}

static void archive(struct shelf_session *session)
{
    char *file = NULL, memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    errno = 0;
    const enum status status =
        shelf_archive(shelf_folder(session->shelf), session->list.target, &file);
    const int error = errno;
    rescan(session);
    if (status == STATUS_NOT_REGULAR) {
        say_failure(session,
                    "It stays here; a link cannot be archived, nor can archive/ be: ", status,
                    error);
    } else if (status != STATUS_OK) {
        say_failure(session, "It stays here: ", status, error);
    } else {
        strbuf_add(&words, "It is now in archive/");
        strbuf_add(&words, file);
        shelf_list_say(&session->list, TONE_NOTE, memory);
    }
    free(file);
}

static void carry_out(struct shelf_session *session, const struct shelf_effects *effects)
{
    switch (effects->action) {
    case SHELF_DO_OPEN:
        open_file(session, shelf_list_item(&session->list)->file, effects->leaf);
        break;
    case SHELF_DO_NEW:
    case SHELF_DO_COPY:
        file_new(session, effects->action == SHELF_DO_COPY);
        break;
    case SHELF_DO_ARCHIVE:
        archive(session);
        break;
    case SHELF_DO_NOTHING:
        break;
    }
    if (effects->repaint)
        term_repaint();
    if (effects->suspend)
        term_suspend();
    if (effects->rescan)
        rescan(session);
}

/* --- the loop --- */

static void show(struct shelf_session *session)
{
    session->shown_ms = now_ms();
    freshen(session);
    if (!screen_fit(&session->screen))
        return;
    session->list.rows = shelf_view_rows(session->screen.frame.rows);
    shelf_list_scroll(&session->list);
    shelf_view_compose(&session->list, term_traits().utf8, &session->screen.frame);
    term_show(&session->screen.frame);
}

/* Keys come first: reading goes on only while none is waiting. */
static struct event next_event(struct shelf_session *session)
{
    for (;;) {
        const bool reading = shelf_unread(session->shelf) > 0;
        const struct event event = term_wait(reading ? 0 : WAIT_MS);

        if (event.type != EVENT_NONE) {
            freshen(session);
            return event;
        }
        if (reading)
            read_for_a_while(session);
        else if (shelf_is_stale(session->shelf))
            rescan(session);
        else
            return event;
        if (shelf_unread(session->shelf) == 0 || now_ms() - session->shown_ms >= SHOW_MS)
            show(session);
    }
}

static void run(struct shelf_session *session)
{
    struct shelf_effects effects = {.quit = false};

    while (!effects.quit) {
        show(session);
        const struct event event = next_event(session);

        effects = shelf_list_handle(&session->list, &event);
        carry_out(session, &effects);
    }
    shelf_keep_cache(session->shelf);
}

static void begin(struct shelf_session *session)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    int count = 0;

    for (const struct preset *preset; count < PRESETS_MAX && (preset = preset_get(count));)
        session->presets[count++] = preset->title;
    shelf_list_init(&session->list, shelf_folder(session->shelf), session->presets, count);
    read_for_a_while(session);
    give(session);
    (void)shop_settings_read(&words);
    if (words.length > 0)
        shelf_list_say(&session->list, TONE_WARNING, memory);
}

static enum exit_code run_on_terminal(struct shelf_session *session)
{
    const char *reason = NULL;

    if (term_start(&reason) != STATUS_OK) {
        fprintf(stderr, "sillet: %s\n", reason);
        return EXIT_CANNOT;
    }
    run(session);
    term_stop();
    if (session->loss[0] == '\0')
        return EXIT_GOOD;
    fprintf(stderr, "sillet: %s\n", session->loss);
    return EXIT_CANNOT;
}

enum exit_code shelf_session_command(const char *folder)
{
    struct shelf_session session = {.shelf = NULL};

    if (shelf_items_open(folder, &session.shelf) != STATUS_OK)
        return EXIT_CANNOT;
    begin(&session);
    const enum exit_code code = run_on_terminal(&session);
    shelf_list_done(&session.list);
    screen_done(&session.screen);
    shelf_close(session.shelf);
    return code;
}
