/* SPDX-License-Identifier: MIT */
#include <time.h>

#include "run/shelf_inside.h"

enum { READ_MS = 40 /* how long to read before the list is shown */ };

long long shelf_scan_now_ms(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* A folder that does not exist yet is an empty shelf; any other failure is shown. */
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

static void keep_if_done(struct shelf_session *session)
{
    if (shelf_unread(session->shelf) == 0)
        shelf_keep_cache(session->shelf);
}

/* The latest files are read first, so that the list seldom shows a file without its card. */
void shelf_scan_begin(struct shelf_session *session)
{
    const long long end = shelf_scan_now_ms() + READ_MS;
    size_t at;

    while (shelf_scan_now_ms() < end && shelf_look_next(session->shelf, &at))
        ;
    keep_if_done(session);
    give(session);
}

void shelf_scan_again(struct shelf_session *session)
{
    shelf_scan(session->shelf);
    shelf_scan_begin(session);
}

void shelf_scan_step(struct shelf_session *session)
{
    size_t at;

    if (!shelf_look_next(session->shelf, &at))
        return;
    shelf_items_give_one(session->shelf, at, &session->list);
    session->outdated = true;
    keep_if_done(session);
}

void shelf_scan_freshen(struct shelf_session *session)
{
    if (session->outdated)
        shelf_list_freshen(&session->list);
    session->outdated = false;
}
