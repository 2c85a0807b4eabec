/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/shop_settings.h"
#include "model/reading/shop_round.h"
#include "run/session.h"
#include "run/shelf_inside.h"
#include "shelf/shelf_journal.h"
#include "store/paths.h"
#include "store/profile/bring_back.h"
#include "store/profile/generations.h"
#include "store/profile/preset.h"
#include "store/safefile.h"
#include "store/shelf/shelf_change.h"
#include "term/term.h"

static char *path_of(const struct shelf_session *session, const char *file)
{
    return paths_join(shelf_folder(session->shelf), file);
}

static void tell_end(struct shelf_session *session, enum session_end end, const char *file,
                     const char *words)
{
    if (words[0] == '\0')
        return;
    shelf_list_say(&session->list, TONE_WARNING, words);
    if (end == SESSION_LOST) {
        struct strbuf loss = STRBUF(session->loss);

        strbuf_addf(&loss, "%s: %s", shown_string(file).text, words);
    }
}

static void open_file(struct shelf_session *session, const char *given, enum leaf leaf,
                      const char *said)
{
    const struct session_wish wish = {.access = PROFILE_TO_EDIT,
                                      .leaf = leaf,
                                      .said = said,
                                      .shelf = shelf_entries(session->shelf)};
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    char *file = strdup(given), *path = file ? path_of(session, file) : NULL;

    if (path) {
        const enum session_end end = session_from_shelf(path, &wish, &session->screen, &words);

        shelf_scan_again(session);
        session->list.ask_units = !shop_settings_say_units();
        session->list.ground.units = shop_settings_read(NULL);
        shelf_list_choose(&session->list, file);
        tell_end(session, end, file, memory);
    } else {
        shelf_list_say(&session->list, TONE_WARNING, status_text(STATUS_NO_MEMORY));
    }
    free(path);
    free(file);
}

/* Says how a change of the shelf failed. */
static void say_failure(struct shelf_session *session, const char *what, enum status status,
                        int error)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add(&words, what);
    if (status == STATUS_READ_ONLY)
        strbuf_add(&words, "its folder may not be written");
    else if (status == STATUS_FULL && error == EEXIST)
        strbuf_add(&words, "there are 999 of that name already; choose another one");
    else
        report_words(status, error, &words);
    shelf_list_say(&session->list, TONE_WARNING, memory);
}

/* What is filed is said when it is opened: some of it may be the shop's own. */
static enum status file_preset(struct shelf_session *session, char **ret_file, struct strbuf *said)
{
    const struct shop_units units = shop_settings_read(NULL);
    struct record record;
    enum status status = preset_record(preset_get(session->list.preset), &record);

    if (status != STATUS_OK)
        return status;
    status = shop_round_record(&record, &units);
    if (status == STATUS_OK)
        status = shop_settings_take_targets(&record, said);
    if (status == STATUS_OK)
        status = shelf_file_record(shelf_folder(session->shelf), &record, session->list.name.text,
                                   ret_file);
    const int kept_errno = errno;
    record_done(&record);
    errno = kept_errno;
    return status;
}

/* Where they cannot be kept, the instrument is filed in inches, and the warning says so. */
static void take_units(struct shelf_session *session, enum shelf_take_units units,
                       struct strbuf *said)
{
    if (units == SHELF_TAKE_NONE)
        return;
    if (shop_settings_put_units(units == SHELF_TAKE_METRIC) != STATUS_OK)
        strbuf_add(said, "The shop's settings cannot be written: inches hold; * m changes them.");
    session->list.ask_units = false;
}

/* A new instrument is opened at once. */
static void file_new(struct shelf_session *session, const struct shelf_effects *effects)
{
    const bool copy = effects->action == SHELF_DO_COPY;
    char *file = NULL, memory[APP_MESSAGE_MAX] = "";
    struct strbuf said = STRBUF(memory);

    take_units(session, effects->units, &said);
    errno = 0;
    const enum status status = copy ? shelf_copy(shelf_folder(session->shelf), session->list.target,
                                                 session->list.name.text, &file)
                                    : file_preset(session, &file, &said);
    if (status != STATUS_OK) {
        say_failure(session, "Nothing was filed: ", status, errno);
        return;
    }
    open_file(session, file, LEAF_BENCH, memory);
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
    shelf_scan_again(session);
    if (status == STATUS_NOT_REGULAR) {
        say_failure(session, "It stays here; neither it nor archive/ may be a link: ", status,
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

static void read_journal(struct shelf_session *session)
{
    journal_lines_done(&session->journal);
    if (journal_lines_read(session->shelf, &session->list, &session->journal) != STATUS_OK)
        shelf_list_say(&session->list, TONE_WARNING, status_text(STATUS_NO_MEMORY));
    shelf_journal_take(&session->list, session->journal.lines, session->journal.journal.count);
}

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

static void list_earlier(struct shelf_session *session)
{
    char *path = path_of(session, session->list.target);

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
        say_failure(session, "Its earlier states cannot be listed: ", status, error);
    free(path);
}

/* The current one; NULL if there is none. */
static const struct copy *earlier_in_hand(const struct shelf_session *session)
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

static void look_at_earlier(struct shelf_session *session)
{
    const struct session_wish wish = {.access = PROFILE_TO_READ, .leaf = LEAF_BENCH, .said = ""};
    const struct copy *earlier = earlier_in_hand(session);
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (!earlier)
        return;
    const enum session_end end = session_from_shelf(earlier->path, &wish, &session->screen, &words);
    if (end == SESSION_LEFT)
        session->list.mode = SHELF_EARLIER;
    tell_end(session, end, session->list.target, memory);
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
        say_failure(session, "It is back; but its own file still lies beside it: ", status, error);
}

static void bring_earlier_back(struct shelf_session *session)
{
    const struct copy *earlier = earlier_in_hand(session);
    char *path = path_of(session, session->list.target);
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
        say_failure(session, failure_to_bring(brought), status, error);
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
        say_failure(session, "It stays beside it: ", status, error);
}

static void put_away(struct shelf_session *session)
{
    const struct copy *version = earlier_in_hand(session);
    char *path = path_of(session, session->list.target);
    char *target = path ? safefile_target(path) : NULL;

    errno = 0;
    const enum status status =
        is_version(version) && target ? copies_put_away(target, version) : STATUS_NOT_FOUND;
    const int error = errno;
    shelf_scan_again(session);
    list_earlier(session);
    tell_put_away(session, status, error);
    free(target);
    free(path);
}

void shelf_session_do(struct shelf_session *session, const struct shelf_effects *effects)
{
    switch (effects->action) {
    case SHELF_DO_OPEN:
        open_file(session, shelf_list_item(&session->list)->file, effects->leaf, "");
        break;
    case SHELF_DO_NEW:
    case SHELF_DO_COPY:
        file_new(session, effects);
        break;
    case SHELF_DO_ARCHIVE:
        archive(session);
        break;
    case SHELF_DO_EARLIER:
        list_earlier(session);
        break;
    case SHELF_DO_LOOK:
        look_at_earlier(session);
        break;
    case SHELF_DO_BRING_BACK:
        bring_earlier_back(session);
        break;
    case SHELF_DO_JOURNAL:
        read_journal(session);
        break;
    case SHELF_DO_VISIT:
        shelf_look_back(session);
        break;
    case SHELF_DO_PUT_AWAY:
        put_away(session);
        break;
    case SHELF_DO_NOTHING:
        break;
    }
    if (effects->repaint)
        term_repaint();
    if (effects->suspend)
        term_suspend();
    if (effects->rescan)
        shelf_scan_again(session);
}
