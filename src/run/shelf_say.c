/* SPDX-License-Identifier: MIT */
#include <errno.h>

#include "run/shelf_inside.h"
#include "store/paths.h"

char *shelf_path_of(const struct shelf_session *session, const char *file)
{
    return paths_join(shelf_folder(session->shelf), file);
}

void shelf_tell_end(struct shelf_session *session, enum session_end end, const char *file,
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

void shelf_say_failure(struct shelf_session *session, const char *what, enum status status,
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
