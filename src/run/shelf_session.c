/* SPDX-License-Identifier: MIT */
#include "run/shelf_session.h"

#include <string.h>

#include "commands/clock_day.h"
#include "commands/shop_settings.h"
#include "run/shelf_inside.h"
#include "shelf/shelf_view.h"
#include "store/profile/preset.h"
#include "term/term.h"

enum {
    WAIT_MS = 1000, /* so that other people's changes are shown without a key */
    SHOW_MS = 250,  /* at least, between updates of a list that is being read */
};

/* Promises and checks are due by the day, which may end while the shelf is shown. */
static void tell_day(struct shelf_session *session)
{
    const struct day today = clock_day();

    session->list.ground.today = day_number(&today);
}

static void show(struct shelf_session *session)
{
    const long long from = shelf_scan_now_ms();

    tell_day(session);
    if (screen_fit(&session->screen)) {
        session->list.rows = shelf_view_rows(session->screen.frame.rows);
        shelf_list_scroll(&session->list);
        shelf_view_compose(&session->list, term_traits().utf8, &session->screen.frame);
        term_show(&session->screen.frame);
    }
    session->unseen = shelf_unseen(session->shelf);
    session->shown_ms = shelf_scan_now_ms();
    session->showing_ms = session->shown_ms - from;
}

static void show_fresh(struct shelf_session *session)
{
    const long long from = shelf_scan_now_ms();

    shelf_scan_freshen(session);
    show(session);
    session->showing_ms = session->shown_ms - from;
}

/* A long list takes so long to order that it would hold up the reading if shown as often. Once all
 * are listed that is shown at once. */
static bool is_to_be_shown(const struct shelf_session *session)
{
    enum { READING_TIMES = 9 };

    return shelf_unread(session->shelf) == 0 ||
           (session->unseen > 0 && shelf_unseen(session->shelf) == 0) ||
           shelf_scan_now_ms() - session->shown_ms >= SHOW_MS + READING_TIMES * session->showing_ms;
}

/* Keys come first: files are read only while no key is waiting. */
static struct event next_event(struct shelf_session *session)
{
    for (;;) {
        const bool reading = shelf_unread(session->shelf) > 0;
        const struct event event = term_wait(reading ? 0 : WAIT_MS);

        if (event.type != EVENT_NONE)
            return event;
        if (reading)
            shelf_scan_step(session);
        else if (shelf_is_stale(session->shelf))
            shelf_scan_again(session);
        else
            return event;
        if (is_to_be_shown(session))
            show_fresh(session);
    }
}

static void run(struct shelf_session *session)
{
    struct shelf_effects effects = {.quit = false};

    while (!effects.quit) {
        show(session);
        shelf_search_prepare(&session->list.search, session->list.items);
        const struct event event = next_event(session);

        effects = shelf_list_handle(&session->list, &event);
        shelf_session_do(session, &effects);
    }
    shelf_keep_cache(session->shelf);
}

static void begin(struct shelf_session *session)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    int count = 0;

    for (const struct preset *preset; count < PRESETS_MAX && (preset = preset_get(count));)
        session->presets[count++] =
            (struct shelf_start){.title = preset->title, .also = preset->also};
    shelf_list_init(&session->list, shelf_folder(session->shelf), session->presets, count);
    tell_day(session);
    shelf_scan_begin(session);
    session->list.ask_units = !shop_settings_say_units();
    session->list.ground.units = shop_settings_read(&words);
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
    earlier_items_done(&session.earlier);
    journal_lines_done(&session.journal);
    together_close(session.together);
    shelf_list_done(&session.list);
    screen_done(&session.screen);
    shelf_close(session.shelf);
    return code;
}
