/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/shop_settings.h"
#include "model/reading/shop_round.h"
#include "run/session.h"
#include "run/shelf_inside.h"
#include "shelf/shelf_journal.h"
#include "store/profile/preset.h"
#include "store/shelf/shelf_change.h"
#include "term/term.h"

static void open_file(struct shelf_session *session, const char *given, enum leaf leaf,
                      const char *said)
{
    const struct session_wish wish = {.access = PROFILE_TO_EDIT,
                                      .leaf = leaf,
                                      .said = said,
                                      .shelf = shelf_entries(session->shelf)};
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    char *file = strdup(given), *path = file ? shelf_path_of(session, file) : NULL;

    if (path) {
        const enum session_end end = session_from_shelf(path, &wish, &session->screen, &words);

        shelf_scan_again(session);
        session->list.ask_units = !shop_settings_say_units();
        session->list.ground.units = shop_settings_read(NULL);
        shelf_list_return(&session->list, file);
        shelf_tell_end(session, end, file, memory);
    } else {
        shelf_list_say(&session->list, TONE_WARNING, status_text(STATUS_NO_MEMORY));
    }
    free(path);
    free(file);
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
        shelf_say_failure(session, "Nothing was filed: ", status, errno);
        return;
    }
    open_file(session, file, LEAF_BENCH, memory);
    shelf_list_choose(&session->list, file);
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
        shelf_say_failure(session, "It stays here; neither it nor archive/ may be a link: ", status,
                          error);
    } else if (status != STATUS_OK) {
        shelf_say_failure(session, "It stays here: ", status, error);
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

/* What needs no more than the list to say with what. */
static void (*const acts[])(struct shelf_session *session) = {
    [SHELF_DO_ARCHIVE] = archive,
    [SHELF_DO_EARLIER] = shelf_versions_list,
    [SHELF_DO_LOOK] = shelf_versions_look,
    [SHELF_DO_BRING_BACK] = shelf_versions_bring_back,
    [SHELF_DO_JOURNAL] = read_journal,
    [SHELF_DO_VISIT] = shelf_look_back,
    [SHELF_DO_PUT_AWAY] = shelf_versions_put_away,
    [SHELF_DO_TOGETHER] = shelf_together_begin,
    [SHELF_DO_JOIN] = shelf_together_join,
};

static void act(struct shelf_session *session, const struct shelf_effects *effects)
{
    if (effects->action == SHELF_DO_OPEN)
        open_file(session, shelf_list_item(&session->list)->file, effects->leaf, "");
    else if (effects->action == SHELF_DO_NEW || effects->action == SHELF_DO_COPY)
        file_new(session, effects);
    else if (effects->action != SHELF_DO_NOTHING)
        acts[effects->action](session);
}

void shelf_session_do(struct shelf_session *session, const struct shelf_effects *effects)
{
    act(session, effects);
    if (session->list.mode != SHELF_TOGETHER)
        shelf_together_leave(session);
    if (effects->repaint)
        term_repaint();
    if (effects->suspend)
        term_suspend();
    if (effects->rescan)
        shelf_scan_again(session);
}
