/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdlib.h>

#include "run/shelf_inside.h"
#include "shelf/shelf_visit.h"
#include "store/paths.h"
#include "store/profile/profile.h"

void shelf_look_back(struct shelf_session *session)
{
    struct profile *profile = NULL;
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    char *path = paths_join(shelf_folder(session->shelf), shelf_list_item(&session->list)->file);

    errno = 0;
    const enum status status =
        path ? profile_open(path, PROFILE_TO_READ, NULL, &profile) : STATUS_NO_MEMORY;
    if (status == STATUS_OK) {
        shelf_visit_take(&session->list, profile_record(profile));
    } else {
        strbuf_add(&words, "Its visits cannot be read: ");
        report_words(status, errno, &words);
        shelf_list_say(&session->list, TONE_WARNING, memory);
    }
    profile_close(profile);
    free(path);
}
