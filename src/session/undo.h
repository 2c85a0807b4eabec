/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_UNDO_H
#define SILLET_SESSION_UNDO_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "model/reading/record.h"

/*
 * Every change to a record in this session, to undo and redo. Changes that belong together (a first
 * reading and the time of its pass) are one step.
 */

struct undo_change {
    struct reading_key key;
    char *before, *after; /* NULL: the reading is absent */
    bool opens_step;
    int leaf; /* on which the step was made */
};

/* A step that was undone or redone. */
struct undo_step {
    struct reading_key key; /* of the reading that it began with */
    const char *from, *to;  /* that reading's texts, NULL for absent; valid until the next change */
    int changes;            /* how many readings it changed */
    int leaf;               /* on which it was made */
};

struct undo {
    struct undo_change *changes;
    size_t count, capacity;
    size_t done;  /* changes in force; those after them can be redone */
    bool opening; /* the next change starts a step */
    int leaf;     /* on which the open step is made */
};

void undo_init(struct undo *undo);
void undo_done(struct undo *undo);

/* The next change starts a step of its own, made on that leaf. */
void undo_open_step(struct undo *undo, int leaf);

/*
 * Puts (or with text NULL removes) a reading and remembers how it was. What had been undone
 * is forgotten. On failure neither the record nor the history is changed; a refused text
 * is a failure. ret_fault may be NULL.
 */
enum status undo_put(struct undo *undo, struct record *record, const struct reading_key *key,
                     const char *text, struct field_fault *ret_fault);

/* The same for a text that was elsewhere in the record: one that would be refused is put as it is.
 * Fails only if memory is out. */
enum status undo_put_as_is(struct undo *undo, struct record *record, const struct reading_key *key,
                           const char *text);

/* The step that undo_back would take back; STATUS_NOT_FOUND when there is none. */
enum status undo_peek(const struct undo *undo, struct undo_step *ret_step);

/*
 * Undoes the last step, or redoes the next one. STATUS_NOT_FOUND when there is none,
 * STATUS_NO_MEMORY when only a part was done (calling again goes on with it).
 */
enum status undo_back(struct undo *undo, struct record *record, struct undo_step *ret_step);
enum status undo_again(struct undo *undo, struct record *record, struct undo_step *ret_step);

/* The reading that undo_back (back) or undo_again would begin with; NULL for none. */
const struct reading_key *undo_next(const struct undo *undo, bool back);

#endif
