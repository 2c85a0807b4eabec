/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_together.h"

#include <errno.h>
#include <stdlib.h>

#include "run/shelf_inside.h"
#include "store/paths.h"

void shelf_together_leave(struct shelf_session *session)
{
    together_close(session->together);
    session->together = NULL;
    session->list.together = (struct shelf_together){.join = NULL};
}

/* --- opening --- */

static void show(struct shelf_session *session)
{
    const struct together *together = session->together;
    const char *name = paths_name_of(together->version.path);
    const struct shelf_together shown = {
        .join = together->join,
        .differences = together->differences,
        .count = together->count,
        .right = copies_label(name),
        .since = together->since,
    };

    shelf_together_take(&session->list, &shown);
}

static void say_not_opened(struct shelf_session *session, const char *holder, enum status status,
                           int error)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    if (status != STATUS_LOCKED || holder[0] == '\0') {
        shelf_say_failure(session, "They cannot be put together: ", status, error);
        return;
    }
    strbuf_addf(&words, "Not now: it is in use by %s.", holder);
    shelf_list_say(&session->list, TONE_WARNING, memory);
}

void shelf_together_begin(struct shelf_session *session)
{
    const struct copy *version = shelf_versions_in_hand(session);
    char *path = shelf_path_of(session, session->list.target), memory[200];
    struct strbuf holder = STRBUF(memory);

    shelf_together_leave(session);
    errno = 0;
    const enum status status = path && version
                                   ? together_open(path, version, &holder, &session->together)
                                   : STATUS_NO_MEMORY;
    if (status == STATUS_OK)
        show(session);
    else
        say_not_opened(session, memory, status, errno);
    free(path);
}

/* --- saving --- */

static void say_wrong(struct shelf_session *session, const struct problems *problems)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    strbuf_add(&words, "Not saved, as this does not go together: ");
    for (size_t i = 0; i < problems->count; i++)
        if (problems->items[i].severity == PROBLEM_ERROR) {
            strbuf_add(&words, problems->items[i].words);
            break;
        }
    shelf_list_say(&session->list, TONE_WARNING, memory);
}

/* Back to the list, which has changed. */
static void end(struct shelf_session *session)
{
    session->list.mode = SHELF_LIST;
    shelf_together_leave(session);
    shelf_scan_again(session);
}

static void tell_done(struct shelf_session *session)
{
    const struct copies *copies = &session->earlier.copies;
    size_t versions = 0;

    for (size_t i = 0; i < copies->count; i++)
        versions += (copies->items[i].kind & COPY_VERSIONS) != 0;
    shelf_list_say(&session->list, TONE_NOTE,
                   versions > 1
                       ? "Put together. Another version still lies beside it: * e shows it."
                       : "Put together. Both are kept as earlier states: * e brings one back.");
}

/* What was chosen stays on the screen where it can be saved after all. */
static void tell(struct shelf_session *session, enum status status, int error, enum joined joined)
{
    if (status == STATUS_OK) {
        end(session);
        tell_done(session);
    } else if (joined == JOINED_ALL) {
        end(session);
        shelf_say_failure(session, "Put together; but the other one still lies beside it: ", status,
                          error);
    } else if (joined == JOINED_UNKEPT) {
        shelf_say_failure(session, "Nothing was changed, as both cannot be kept first: ", status,
                          error);
    } else if (status == STATUS_CHANGED) {
        end(session);
        shelf_list_say(&session->list, TONE_WARNING,
                       "One of both has changed meanwhile: nothing was saved. Look at them again.");
    } else {
        shelf_say_failure(session, "Nothing was saved: ", status, error);
    }
}

void shelf_together_join(struct shelf_session *session)
{
    struct problems problems;
    enum joined joined = JOINED_NOTHING;

    problems_init(&problems);
    errno = 0;
    const enum status status = together_save(session->together, &problems, &joined);
    const int error = errno;
    if (joined == JOINED_WRONG)
        say_wrong(session, &problems);
    else
        tell(session, status, error, joined);
    problems_done(&problems);
}
