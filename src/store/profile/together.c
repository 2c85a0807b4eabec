/* SPDX-License-Identifier: MIT */
#include "store/profile/together.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "store/disk.h"
#include "store/file_read.h"
#include "store/profile/copies.h"
#include "store/profile/generations.h"
#include "store/profile/profile_edit.h"
#include "store/profile/profile_inner.h"

struct together_inside {
    struct profile_content other;    /* the version */
    struct profile_content *earlier; /* states of the profile, the newest first */
    struct copies states;            /* as many; only those that could be read */
    bool wrong;                      /* one of both contradicts itself already */
};

static enum status read_content(const char *path, struct problems *problems,
                                struct profile_content *ret_content)
{
    struct bytes bytes;
    enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status;
    status = profile_load(&bytes, problems, ret_content);
    bytes_done(&bytes);
    if (status == STATUS_OK && ret_content->newer) {
        profile_content_done(ret_content);
        status = STATUS_NEWER;
    }
    return status;
}

/* --- the state that both come from --- */

/* A state like the profile itself would say that all of the version is new. */
static bool may_be_base(const struct together *together, const struct profile_content *content)
{
    return !record_equal(&content->record, profile_record(together->profile));
}

/* Reads those that can be read; what cannot is not known. */
static enum status read_earlier(struct together *together)
{
    struct together_inside *inside = together->inside;
    struct copies list;
    enum status status = copies_list(profile_target(together->profile), COPY_EARLIER, &list);

    inside->earlier = calloc(list.count + 1, sizeof *inside->earlier);
    for (size_t i = 0; inside->earlier && i < list.count && status != STATUS_NO_MEMORY; i++) {
        struct profile_content *content = &inside->earlier[inside->states.count];

        if (read_content(list.items[i].path, NULL, content) != STATUS_OK)
            continue;
        if (!may_be_base(together, content)) {
            profile_content_done(content);
            continue;
        }
        status = copies_add(&inside->states, &list.items[i]);
        list.items[i].path = NULL;
        if (status != STATUS_OK)
            profile_content_done(content);
    }
    copies_done(&list);
    return inside->earlier && status != STATUS_NO_MEMORY ? STATUS_OK : STATUS_NO_MEMORY;
}

/* The newest state that both the profile and the version know of; of the oldest one nothing tells
 * that they do not. The count of states if there is none. */
static size_t find_base(const struct together *together)
{
    const struct together_inside *inside = together->inside;
    const struct record *mine = profile_record(together->profile), *other = &inside->other.record;
    size_t i = 0;

    for (; i + 1 < inside->states.count; i++) {
        const struct record *state = &inside->earlier[i].record;
        const struct record *before = &inside->earlier[i + 1].record;

        if (join_knows(mine, state, before) && join_knows(other, state, before))
            break;
    }
    return i;
}

/* What is proposed because of that state is doubted by all states before it. */
static enum status list_differences(struct together *together, size_t base)
{
    const struct together_inside *inside = together->inside;
    enum status status = STATUS_OK;

    together->count = record_join_list(together->join, NULL, 0);
    together->differences = calloc(together->count + 1, sizeof *together->differences);
    if (!together->differences)
        return STATUS_NO_MEMORY;
    (void)record_join_list(together->join, together->differences, together->count);
    for (size_t i = base + 1; i < inside->states.count && status == STATUS_OK; i++)
        status = record_join_doubt(together->join, &inside->earlier[i].record,
                                   together->differences, together->count);
    return status;
}

static enum status compare(struct together *together)
{
    const struct together_inside *inside = together->inside;
    const size_t base = find_base(together);
    struct strbuf since = STRBUF(together->since);

    together->join = calloc(1, sizeof *together->join);
    if (!together->join)
        return STATUS_NO_MEMORY;
    if (base < inside->states.count)
        strbuf_add(&since, inside->states.items[base].when);
    const enum status status =
        record_join_begin(together->join, profile_record(together->profile), &inside->other.record,
                          base < inside->states.count ? &inside->earlier[base].record : NULL);
    return status == STATUS_OK ? list_differences(together, base) : status;
}

/* --- opening --- */

static bool contradicts(const struct profile_content *content)
{
    struct problems problems;

    problems_init(&problems);
    profile_check(content, &problems);
    const bool wrong = problems.errors > 0;
    problems_done(&problems);
    return wrong;
}

static enum status open_both(struct together *together, const char *path,
                             const struct copy *version, struct strbuf *holder)
{
    enum status status = profile_open(path, PROFILE_TO_EDIT, NULL, &together->profile);

    if (status != STATUS_OK)
        return status;
    if (profile_editable(together->profile) != STATUS_OK) {
        strbuf_add(holder, profile_lock_holder(together->profile));
        return profile_editable(together->profile);
    }
    together->version = *version;
    together->version.path = strdup(version->path);
    if (!together->version.path)
        return STATUS_NO_MEMORY;
    status = read_content(version->path, NULL, &together->inside->other);
    if (status != STATUS_OK)
        return status;
    together->inside->wrong =
        contradicts(profile_content(together->profile)) || contradicts(&together->inside->other);
    return read_earlier(together);
}

enum status together_open(const char *path, const struct copy *version, struct strbuf *holder,
                          struct together **ret_together)
{
    struct together *together = calloc(1, sizeof *together);

    if (!together)
        return STATUS_NO_MEMORY;
    together->inside = calloc(1, sizeof *together->inside);
    enum status status =
        together->inside ? open_both(together, path, version, holder) : STATUS_NO_MEMORY;
    if (status == STATUS_OK)
        status = compare(together);
    if (status == STATUS_OK)
        *ret_together = together;
    else
        together_close(together);
    return status;
}

void together_close(struct together *together)
{
    const int kept_errno = errno;

    if (!together)
        return;
    struct together_inside *inside = together->inside;

    if (together->join)
        record_join_done(together->join);
    free(together->join);
    free(together->differences);
    for (size_t i = 0; inside && i < inside->states.count; i++)
        profile_content_done(&inside->earlier[i]);
    if (inside) {
        profile_content_done(&inside->other);
        copies_done(&inside->states);
        free(inside->earlier);
    }
    free(inside);
    free(together->version.path);
    profile_close(together->profile);
    free(together);
    errno = kept_errno;
}

/* --- saving --- */

/* Whether what was chosen goes together: the scale of one and the scales of the other do not. */
static enum status check_joined(const struct together *together, const struct record *joined,
                                struct problems *problems)
{
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    enum status status = profile_edit(profile_content(together->profile), joined, &bytes);
    if (status == STATUS_OK)
        status = profile_load_back(&bytes, joined, &content);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return status;
    profile_check(&content, problems);
    profile_content_done(&content);
    return !together->inside->wrong && problems->errors > 0 ? STATUS_SYNTAX : STATUS_OK;
}

static const struct bytes *bytes_before(const struct together *together)
{
    return &profile_content(together->profile)->text.bytes;
}

static enum status keep_both(const struct together *together)
{
    const char *target = profile_target(together->profile);
    enum status status = generations_keep(target, &together->inside->other.text.bytes, NULL);

    if (status == STATUS_OK)
        status = generations_keep(target, bytes_before(together), NULL);
    return status;
}

/* Neither file may be other than what was looked at: nobody has chosen from that. */
static bool is_changed(const struct together *together)
{
    return !copy_reads(profile_target(together->profile), bytes_before(together)) ||
           !copy_reads(together->version.path, &together->inside->other.text.bytes);
}

static enum status save(struct together *together, const struct record *joined,
                        struct problems *problems, enum joined *joined_how)
{
    enum status status = check_joined(together, joined, problems);

    if (status == STATUS_SYNTAX)
        *joined_how = JOINED_WRONG;
    if (status != STATUS_OK)
        return status;
    if (is_changed(together))
        return STATUS_CHANGED;
    status = keep_both(together);
    if (status != STATUS_OK) {
        *joined_how = JOINED_UNKEPT;
        return status;
    }
    status = profile_save(together->profile, joined);
    if (status != STATUS_OK)
        return status;
    *joined_how = JOINED_ALL;
    if (unlink(together->version.path) != 0 && errno != ENOENT)
        return disk_status(errno);
    return STATUS_OK;
}

enum status together_save(struct together *together, struct problems *problems,
                          enum joined *ret_joined)
{
    struct record joined;
    enum status status =
        record_join_make(together->join, together->differences, together->count, &joined);

    *ret_joined = JOINED_NOTHING;
    if (status != STATUS_OK)
        return status;
    status = save(together, &joined, problems, ret_joined);
    const int kept_errno = errno;
    record_done(&joined);
    errno = kept_errno;
    return status;
}
