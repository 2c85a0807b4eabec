/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "session/undo.h"
#include "sound.h"
#include "store/profile/ini_end.h"
#include "store/profile/profile_edit.h"

/*
 * A record's history: a profile, then readings put in, taken out, undone and redone,
 * each saved at once. Input: the length of the profile (two bytes), the profile, then changes.
 * Every saved text reads back as exactly the record; cut short anywhere, it is recognised as
 * incomplete; and undoing everything gives what was opened.
 */
struct kept {
    struct record record;
    struct undo undo;
    struct profile_content saved;
};

static void load(const char *data, size_t size, struct profile_content *ret_content, bool *ret_good)
{
    struct bytes bytes;

    bytes_init(&bytes);
    if (size > 0)
        bytes_add(&bytes, data, size);
    *ret_good = profile_load(&bytes, NULL, ret_content) == STATUS_OK;
    bytes_done(&bytes);
}

static void check_cut(const struct bytes *bytes, size_t length)
{
    size_t line;

    if (length < bytes->length)
        FUZZ_CHECK(ini_end_check(bytes->data, length, &line) != INI_END_GOOD);
}

/* What a save does, less the disk. */
static void save(struct kept *kept, size_t cut)
{
    struct profile_content content;
    struct bytes bytes;
    bool good;

    bytes_init(&bytes);
    FUZZ_CHECK(profile_edit(&kept->saved, &kept->record, &bytes) == STATUS_OK);
    load(bytes.data, bytes.length, &content, &good);
    FUZZ_CHECK(good && content.end == INI_END_GOOD);
    FUZZ_CHECK(record_equal(&content.record, &kept->record));
    check_cut(&bytes, cut % (bytes.length + 1));
    bytes_done(&bytes);
    profile_content_done(&kept->saved);
    kept->saved = content;
}

static struct reading_key take_key(struct fuzz_bytes *bytes)
{
    const enum field_id id = (enum field_id)fuzz_whole(bytes, FIELD_COUNT_ - 1);
    const struct field *field = field_get(id);
    int visit = 0, part = 0, string = 0, fret = 0;

    if (field->section == SECTION_STRING || field->per == PER_STRING ||
        field->per == PER_STRING_FRET)
        string = 1 + fuzz_whole(bytes, STRINGS_MAX - 1);
    if (field->per == PER_FRET || field->per == PER_STRING_FRET)
        fret = fuzz_whole(bytes, FRETS_MAX);
    if (field->section >= SECTION_VISIT)
        visit = 1 + fuzz_whole(bytes, 3);
    else if (field_may_change(id))
        visit = fuzz_whole(bytes, 3);
    if (field->section > SECTION_VISIT)
        part = 1 + fuzz_whole(bytes, 3);
    return reading_key_pass_at(id, visit, part, string, fret);
}

static void put(struct kept *kept, struct fuzz_bytes *bytes)
{
    const struct reading_key key = take_key(bytes);
    char *text = fuzz_text(bytes, fuzz_byte(bytes));

    if (undo_put(&kept->undo, &kept->record, &key, text, NULL) == STATUS_OK)
        FUZZ_CHECK(strcmp(record_find(&kept->record, &key)->text, text) == 0);
    free(text);
}

/* A text longer than a line of the file. */
static void put_long(struct kept *kept, struct fuzz_bytes *bytes)
{
    const struct reading_key key = take_key(bytes);
    const size_t times = fuzz_byte(bytes);
    char *part = fuzz_text(bytes, fuzz_byte(bytes) % 64);
    const size_t length = strlen(part);
    char *text = calloc(times * length + 1, 1);

    FUZZ_CHECK(text != NULL);
    for (size_t i = 0; i < times; i++)
        memcpy(text + i * length, part, length);
    (void)undo_put(&kept->undo, &kept->record, &key, text, NULL);
    free(text);
    free(part);
}

static void take_out(struct kept *kept, struct fuzz_bytes *bytes)
{
    const struct record *record = &kept->record;

    if (record->count == 0)
        return;
    const struct reading_key key =
        record->readings[(size_t)fuzz_whole(bytes, 0xFFFF) % record->count].key;
    FUZZ_CHECK(undo_put(&kept->undo, &kept->record, &key, NULL, NULL) == STATUS_OK);
    FUZZ_CHECK(record_find(record, &key) == NULL);
}

static void change(struct kept *kept, struct fuzz_bytes *bytes)
{
    struct undo_step step;

    const int what = fuzz_whole(bytes, 15);

    if (what < 12 && what % 3 != 2)
        undo_open_step(&kept->undo, what);
    if (what < 6)
        put(kept, bytes);
    else if (what < 8)
        put_long(kept, bytes);
    else if (what < 12)
        take_out(kept, bytes);
    else if (what < 14)
        (void)undo_back(&kept->undo, &kept->record, &step);
    else
        (void)undo_again(&kept->undo, &kept->record, &step);
}

static void go_back(struct kept *kept, const struct record *opened)
{
    struct undo_step step;

    while (undo_back(&kept->undo, &kept->record, &step) == STATUS_OK)
        ;
    FUZZ_CHECK(kept->undo.done == 0);
    FUZZ_CHECK(record_equal(&kept->record, opened));
    save(kept, 0);
}

static void play(struct kept *kept, struct fuzz_bytes *bytes)
{
    struct record opened;

    FUZZ_CHECK(record_copy(&kept->saved.record, &kept->record) == STATUS_OK);
    FUZZ_CHECK(record_copy(&kept->record, &opened) == STATUS_OK);
    undo_init(&kept->undo);
    while (bytes->left > 0) {
        change(kept, bytes);
        FUZZ_CHECK(kept->undo.done <= kept->undo.count);
        save(kept, (size_t)fuzz_whole(bytes, 0xFFFF));
    }
    FUZZ_SOUND(sound_record(&kept->record));
    go_back(kept, &opened);
    undo_done(&kept->undo);
    record_done(&kept->record);
    record_done(&opened);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes bytes = {data, size};
    struct kept kept;
    const size_t wish = (size_t)fuzz_whole(&bytes, 0xFFFF);
    const size_t length = wish < bytes.left ? wish : bytes.left;
    bool good;

    load((const char *)bytes.at, length, &kept.saved, &good);
    if (!good)
        return -1;
    bytes.at += length;
    bytes.left -= length;
    play(&kept, &bytes);
    profile_content_done(&kept.saved);
    return 0;
}
