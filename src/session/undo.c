/* SPDX-License-Identifier: MIT */
#include "session/undo.h"

#include <stdlib.h>
#include <string.h>

#include "base/array.h"

void undo_init(struct undo *undo)
{
    *undo = (struct undo){0};
}

static void forget_from(struct undo *undo, size_t first)
{
    for (size_t i = first; i < undo->count; i++) {
        free(undo->changes[i].before);
        free(undo->changes[i].after);
    }
    undo->count = first;
}

void undo_done(struct undo *undo)
{
    forget_from(undo, 0);
    free(undo->changes);
    undo_init(undo);
}

static enum status make_room(struct undo *undo)
{
    struct undo_change *changes =
        array_grow(undo->changes, undo->count, &undo->capacity, sizeof *changes);

    if (!changes)
        return STATUS_NO_MEMORY;
    undo->changes = changes;
    return STATUS_OK;
}

/* A copy of a text that may be absent; false only when memory is out. */
static bool copy_text(const char *text, char **ret_copy)
{
    *ret_copy = NULL;
    if (!text)
        return true;
    const size_t size = strlen(text) + 1;
    *ret_copy = malloc(size);
    if (*ret_copy)
        memcpy(*ret_copy, text, size);
    return *ret_copy != NULL;
}

/* A file may hold a text that would be refused if typed; it is put back all the same. */
static enum status force(struct record *record, const struct reading_key *key, const char *text)
{
    if (!text) {
        record_remove(record, key);
        return STATUS_OK;
    }
    const enum status status = record_put(record, key, text, true, NULL);
    return status == STATUS_NO_MEMORY ? status : STATUS_OK;
}

void undo_open_step(struct undo *undo, int leaf)
{
    undo->leaf = leaf;
    undo->opening = true;
}

static enum status put(struct undo *undo, struct record *record, const struct reading_key *key,
                       const char *text, bool as_is, struct field_fault *ret_fault)
{
    struct undo_change change = {.key = *key, .opens_step = undo->opening, .leaf = undo->leaf};
    const struct reading *held = record_find(record, key);
    enum status status = STATUS_NO_MEMORY;

    if (make_room(undo) == STATUS_OK && copy_text(held ? held->text : NULL, &change.before) &&
        copy_text(text, &change.after))
        status = text && !as_is ? record_put(record, key, text, false, ret_fault)
                                : force(record, key, text);
    if (status != STATUS_OK) {
        free(change.before);
        free(change.after);
        return status;
    }
    forget_from(undo, undo->done);
    undo->changes[undo->count++] = change;
    undo->done = undo->count;
    undo->opening = false;
    return STATUS_OK;
}

enum status undo_put(struct undo *undo, struct record *record, const struct reading_key *key,
                     const char *text, struct field_fault *ret_fault)
{
    return put(undo, record, key, text, false, ret_fault);
}

enum status undo_put_as_is(struct undo *undo, struct record *record, const struct reading_key *key,
                           const char *text)
{
    return put(undo, record, key, text, true, NULL);
}

enum status undo_peek(const struct undo *undo, struct undo_step *ret_step)
{
    size_t at = undo->done;

    if (at == 0)
        return STATUS_NOT_FOUND;
    do
        at--;
    while (at > 0 && !undo->changes[at].opens_step);
    const struct undo_change *first = &undo->changes[at];
    *ret_step = (struct undo_step){.key = first->key,
                                   .from = first->after,
                                   .to = first->before,
                                   .changes = (int)(undo->done - at),
                                   .leaf = first->leaf};
    return STATUS_OK;
}

enum status undo_back(struct undo *undo, struct record *record, struct undo_step *ret_step)
{
    struct undo_step step;
    const enum status status = undo_peek(undo, &step);

    if (status != STATUS_OK)
        return status;
    const size_t from = undo->done - (size_t)step.changes;
    for (size_t at = undo->done; at > from; at--) {
        const struct undo_change *change = &undo->changes[at - 1];

        if (force(record, &change->key, change->before) != STATUS_OK)
            return STATUS_NO_MEMORY;
    }
    undo->done = from;
    *ret_step = step;
    return STATUS_OK;
}

enum status undo_again(struct undo *undo, struct record *record, struct undo_step *ret_step)
{
    size_t at = undo->done;

    if (at == undo->count)
        return STATUS_NOT_FOUND;
    do {
        const struct undo_change *change = &undo->changes[at];

        if (force(record, &change->key, change->after) != STATUS_OK)
            return STATUS_NO_MEMORY;
        at++;
    } while (at < undo->count && !undo->changes[at].opens_step);
    const struct undo_change *first = &undo->changes[undo->done];
    *ret_step = (struct undo_step){.key = first->key,
                                   .from = first->before,
                                   .to = first->after,
                                   .changes = (int)(at - undo->done),
                                   .leaf = first->leaf};
    undo->done = at;
    return STATUS_OK;
}

const struct reading_key *undo_next(const struct undo *undo, bool back)
{
    struct undo_step step;

    if (!back)
        return undo->done < undo->count ? &undo->changes[undo->done].key : NULL;
    return undo_peek(undo, &step) == STATUS_OK
               ? &undo->changes[undo->done - (size_t)step.changes].key
               : NULL;
}
