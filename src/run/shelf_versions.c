/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdlib.h>

#include "run/session.h"
#include "run/shelf_inside.h"
#include "store/profile/bring_back.h"
#include "store/profile/generations.h"
#include "store/safefile.h"

/* Warns if the earlier states may not be read: an empty list, or one with versions only, does not
 * show that. */
static void warn_if_closed(struct shelf_session *session, const char *path)
{
    char *target = safefile_target(path);

    if (target && generations_room(target) == GENERATIONS_CLOSED)
        shelf_list_say(&session->list, TONE_WARNING,
                       "Its earlier states are closed to you, or something else has their name.");
    free(target);
}

void shelf_versions_list(struct shelf_session *session)
{
    char *path = shelf_path_of(session, session->list.target);

    earlier_items_done(&session->earlier);
    errno = 0;
    const enum status status =
        path ? earlier_items_read(path, &session->earlier) : STATUS_NO_MEMORY;
    const int error = errno;
    /* The old list has been freed, even after a failure. */
    shelf_earlier_take(&session->list, session->earlier.items, session->earlier.copies.count);
    if (status == STATUS_OK)
        warn_if_closed(session, path);
    else
        shelf_say_failure(session, "Its earlier states cannot be listed: ", status, error);
    free(path);
}

const struct copy *shelf_versions_in_hand(const struct shelf_session *session)
{
    const struct copies *copies = &session->earlier.copies;
    const size_t at = session->list.earlier_at;

    return at < copies->count ? &copies->items[at] : NULL;
}

/* Whether it lies beside the profile, where it is said. */
static bool is_version(const struct copy *copy)
{
    return copy && copy->kind & COPY_VERSIONS;
}

void shelf_versions_look(struct shelf_session *session)
{
    const struct session_wish wish = {.access = PROFILE_TO_READ, .leaf = LEAF_BENCH, .said = ""};
    const struct copy *earlier = shelf_versions_in_hand(session);
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (!earlier)
        return;
    const enum session_end end = session_from_shelf(earlier->path, &wish, &session->screen, &words);
    if (end == SESSION_LEFT)
        session->list.mode = SHELF_EARLIER;
    shelf_tell_end(session, end, session->list.target, memory);
}

/* The words that come before the reason. */
static const char *failure_to_bring(enum brought brought)
{
    if (brought == BROUGHT_UNKEPT)
        return "Nothing was changed, as its present state cannot be kept first: ";
    if (brought == BROUGHT_UNSYNCED)
        return "It is back, but the disk may yet lose it: ";
    return "It was not brought back: ";
}

static void tell_brought(struct shelf_session *session, enum brought brought)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_addf(&words,
                brought == BROUGHT_SAME
                    ? "It is as it was at %s already; nothing was changed."
                    : "Back as it was at %s; what it replaced is an earlier state now.",
                session->earlier.items[session->list.earlier_at].when);
    shelf_list_say(&session->list, TONE_NOTE, memory);
}

/* Removes the file of a version that has become current, once it is kept as an earlier state. */
static void drop_version(struct shelf_session *session, const char *target,
                         const struct copy *version)
{
    errno = 0;
    const enum status status = copies_put_away(target, version);
    const int error = errno;

    shelf_scan_again(session);
    if (status != STATUS_OK)
        shelf_say_failure(session, "It is back; but its own file still lies beside it: ", status,
                          error);
}

void shelf_versions_bring_back(struct shelf_session *session)
{
    const struct copy *earlier = shelf_versions_in_hand(session);
    char *path = shelf_path_of(session, session->list.target);
    char *target = path ? safefile_target(path) : NULL;
    enum brought brought = BROUGHT_NOTHING;

    errno = 0;
    const enum status status =
        earlier && target ? bring_back(target, earlier->path, &brought) : STATUS_NOT_FOUND;
    const int error = errno;
    shelf_scan_again(session);
    if (status == STATUS_OK)
        tell_brought(session, brought);
    else
        shelf_say_failure(session, failure_to_bring(brought), status, error);
    if (status == STATUS_OK && is_version(earlier))
        drop_version(session, target, earlier);
    free(target);
    free(path);
}

/* A file that is not a profile cannot become an earlier state of one. */
static bool is_junk(enum status status)
{
    return status == STATUS_SYNTAX || status == STATUS_BINARY || status == STATUS_TOO_LONG ||
           status == STATUS_TOO_LARGE;
}

static void tell_put_away(struct shelf_session *session, enum status status, int error)
{
    if (status == STATUS_OK)
        shelf_list_say(&session->list, TONE_NOTE,
                       "It is an earlier state now, and no longer beside the file.");
    else if (is_junk(status))
        shelf_list_say(&session->list, TONE_WARNING,
                       "It stays: it holds no profile. Remove that file, or rename it, yourself.");
    else
        shelf_say_failure(session, "It stays beside it: ", status, error);
}

void shelf_versions_put_away(struct shelf_session *session)
{
    const struct copy *version = shelf_versions_in_hand(session);
    char *path = shelf_path_of(session, session->list.target);
    char *target = path ? safefile_target(path) : NULL;

    errno = 0;
    const enum status status =
        is_version(version) && target ? copies_put_away(target, version) : STATUS_NOT_FOUND;
    const int error = errno;
    shelf_scan_again(session);
    shelf_versions_list(session);
    tell_put_away(session, status, error);
    free(target);
    free(path);
}
