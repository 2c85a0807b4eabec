/* SPDX-License-Identifier: MIT */
#ifndef SILLET_MODEL_READING_RECORD_H
#define SILLET_MODEL_READING_RECORD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/status.h"
#include "model/reading/reading_key.h"

/*
 * An instrument's record: every reading as it was typed, with what it was understood as.
 * Kept sorted by key, so that a record always comes out in the same order.
 */

struct reading {
    struct reading_key key;
    uint64_t order; /* the key's place in the order (reading_key_order) */
    char *text;     /* as typed, with its unit; owned by the record */
    struct field_value value;
};

struct record {
    struct reading *readings;
    size_t count, capacity;
    /* The visit, and the pass of it, whose facts of the instrument it answers with; 0: the latest
     * ones, and the visit's last pass. */
    int as_of, as_of_pass;
    size_t setbacks; /* how many setbacks were read in passes, */
    size_t changes;  /* and how many changes of the instrument there are */
    /* Room for texts (record_reserve): those in it are freed together. */
    char *room;
    size_t room_used, room_size;
};

/* What a change's text is when the reading holds no longer and nothing has taken its place: no text
 * that can be typed. A file spells it out. */
#define RECORD_GONE ""

/* The format of a record with changes. A program that knows only format 1 would pass over them and
 * take what holds in the first visit for what holds in all. */
enum { RECORD_FORMAT_OF_CHANGES = 2 };

void record_init(struct record *record);
void record_done(struct record *record);

/* Makes room for that many more readings and so many bytes of their texts with their ends, for a
 * record that is filled as a whole. Only an empty record gets room for texts. STATUS_NO_MEMORY. */
enum status record_reserve(struct record *record, size_t readings, size_t bytes);

/* The same readings, answering as of a visit (0: as the record does). Only to read from, and only
 * until the record changes; it owns nothing. */
struct record record_as_of(const struct record *record, int visit);
struct record record_as_of_pass(const struct record *record, int visit, int pass);

/*
 * Puts a text under a key, replacing what was there. The text is taken with the file's
 * rules (a length carries its unit). A text that is refused is kept in state READING_BAD
 * when `keep_bad` is set (what a file holds must survive); else the record is unchanged
 * and the refusal is returned. ret_fault may be NULL.
 */
enum status record_put(struct record *record, const struct reading_key *key, const char *text,
                       bool keep_bad, struct field_fault *ret_fault);

/* The same with a text that was read before: `value` is what it was understood as. Only
 * STATUS_NO_MEMORY can be the matter. */
enum status record_put_read(struct record *record, const struct reading_key *key, const char *text,
                            struct field_value value);

/*
 * A text on trial: record_try puts one under a key as record_put does, and record_end_try, which
 * cannot fail, makes the record what it was before. Nothing else may be put in or taken out between
 * the two; of two trials the last one ends first.
 */
struct record_trial {
    struct reading_key key;
    struct reading was; /* its text is NULL if there was none */
};
enum status record_try(struct record *record, const struct reading_key *key, const char *text,
                       struct record_trial *ret_trial);
void record_end_try(struct record *record, struct record_trial *trial);

/* Takes a reading out; false when there was none. */
bool record_remove(struct record *record, const struct reading_key *key);

/*
 * The reading under a key, NULL when absent. Valid until the record changes. What the instrument is
 * like, asked for without a visit, is as last changed up to the visit that the record answers as
 * of. A string's setback is also what a pass read, up to the one that it answers as of: the saddle
 * is moved within a visit.
 */
const struct reading *record_get(const struct record *record, const struct reading_key *key);

/* Its text; NULL when absent. */
const char *record_text(const struct record *record, const struct reading_key *key);

/* The reading filed under exactly this key, in whichever state. */
const struct reading *record_find(const struct record *record, const struct reading_key *key);

/* The visit that a reading of the instrument was filed in, of those that the record answers as of;
 * 0 if it is as first filed, or absent. One that is gone counts. */
int record_since(const struct record *record, const struct reading_key *key);

/* Whether any visit changed what the instrument is like. */
bool record_is_changed(const struct record *record);

/* The highest visit, and the highest pass (work line) of a visit, with any reading; 0: none. */
int record_last_visit(const struct record *record);
int record_last_pass(const struct record *record, int visit);
int record_last_work(const struct record *record, int visit);

/* Whether anything was read in a pass; where only the turns of the rod before it are logged, it is
 * not begun. */
bool record_is_read_pass(const struct record *record, int visit, int pass);

/* The highest pass of a visit that something was read in. */
int record_last_read_pass(const struct record *record, int visit);

/* The first visit after *visit with any reading; false, *visit untouched, past the last. Begin
 * with 0. */
bool record_next_visit(const struct record *record, int *visit);

/* The last visit before it; false, *visit untouched, before the first. */
bool record_visit_before(const struct record *record, int *visit);

/* The index of the first reading not below `key`; `count` when all are. For walking a part
 * of the record in order. */
size_t record_lower_bound(const struct record *record, const struct reading_key *key);

/* A deep copy. *ret_copy must not be initialised. */
enum status record_copy(const struct record *record, struct record *ret_copy);

/* Same keys with the same texts. */
bool record_equal(const struct record *a, const struct record *b);

#endif
