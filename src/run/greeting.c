/* SPDX-License-Identifier: MIT */
#include "run/greeting.h"

#include <stdlib.h>

#include "commands/report.h"
#include "commands/shop_settings.h"
#include "store/paths.h"
#include "store/profile/copies.h"
#include "store/profile/profile_name.h"
#include "store/safefile.h"

static bool may_be_changed(const struct greeted *greeted)
{
    return profile_editable(greeted->profile) == STATUS_OK;
}

/* Why the file is open for reading only, and what to do. */
static void add_reader(const struct greeted *greeted, struct strbuf *out)
{
    const enum status editable = profile_editable(greeted->profile);

    if (editable == STATUS_OK)
        return;
    strbuf_add(out, "Open for reading: ");
    if (editable == STATUS_LOCKED) {
        strbuf_add(out, "in use by ");
        strbuf_add(out, profile_lock_holder(greeted->profile));
        return;
    }
    if (editable == STATUS_READ_ONLY && greeted->access == PROFILE_TO_READ) {
        strbuf_add(out, "an earlier state");
        return;
    }
    if (editable == STATUS_TOO_LARGE) {
        strbuf_add(out, "no file can hold more; go on in a copy (shelf: * f)");
        return;
    }
    report_words(editable, 0, out);
    if (editable == STATUS_READ_ONLY || editable == STATUS_NOT_OURS)
        strbuf_add(out, "; to change it, copy it");
}

/* The name of the first version beside a file that is not on the shelf. */
static void add_version_name(const char *path, struct strbuf *out)
{
    char *target = safefile_target(path);
    struct copies list = {.items = NULL};

    if (target && copies_list(target, COPY_VERSIONS, &list) == STATUS_OK && list.count > 0)
        strbuf_add(out, shown_string(paths_name_of(list.items[0].path)).text);
    copies_done(&list);
    free(target);
}

/* Says that both versions of a file are still there and none has been chosen. */
static void add_versions(const struct greeted *greeted, struct strbuf *out)
{
    const char *path = profile_path(greeted->profile);

    if (!(greeted->found & PROFILE_VERSIONS))
        return;
    if (profile_name_is_listed(paths_name_of(path))) {
        strbuf_add(out, "Another version lies beside it; on the shelf, * then e shows both.");
        return;
    }
    strbuf_add(out, "Another version lies beside it: ");
    add_version_name(path, out);
}

static void add_hand_edit(const struct greeted *greeted, struct strbuf *out)
{
    if (may_be_changed(greeted) && greeted->found & PROFILE_END_WRONG)
        strbuf_add(out,
                   "Changed by hand or damaged; a copy as found is kept at the first rewrite.");
}

static void add_lock(const struct greeted *greeted, struct strbuf *out)
{
    if (greeted->found & PROFILE_NO_LOCK)
        strbuf_add(out,
                   greeted->found & PROFILE_LOCK_TAKEN
                       ? "No lock: something else has its .lock name. Open it in one program only."
                       : "Locks do not work in this folder: open it in one program only.");
}

static void add_generations(const struct greeted *greeted, struct strbuf *out)
{
    if (greeted->found & PROFILE_NO_GENERATION)
        strbuf_add(out, "Its earlier states are closed to you: none is kept of what you change.");
    else if (greeted->found & PROFILE_CLOSED_GENERATIONS)
        strbuf_add(out, "Its earlier states are closed to the others who may change it.");
}

void greeting_add_long(struct strbuf *out)
{
    strbuf_add(out,
               "This record fills half of what a file can hold; go on in a copy (shelf: * f).");
}

static void add_length(const struct greeted *greeted, struct strbuf *out)
{
    if (may_be_changed(greeted) && greeted->found & PROFILE_LONG)
        greeting_add_long(out);
}

static void add_settings(const struct greeted *greeted, struct strbuf *out)
{
    if (!greeted->from_shelf)
        (void)shop_settings_read(out);
}

bool greeting_next(const struct greeted *greeted, size_t *told, struct strbuf *out)
{
    static void (*const greetings[])(const struct greeted *, struct strbuf *) = {
        add_reader,      add_versions, add_hand_edit, add_lock,
        add_generations, add_length,   add_settings,
    };

    while (out->length == 0 && *told < sizeof greetings / sizeof greetings[0])
        greetings[(*told)++](greeted, out);
    return out->length > 0;
}
