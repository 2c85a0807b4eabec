/* SPDX-License-Identifier: MIT */
#include "profile_steps.h"

#include "near.h"

#include <string.h>

#include "store/crc32.h"
#include "tree.h"

const char steps_tiny[] = "[profile]\nformat = 1\n\n[board]\nscale = 25.5 in\n";

struct reading_key steps_key(const char *section, const char *name)
{
    struct reading_key key;

    assert_int_equal(reading_key_parse(section, name, &key), STATUS_OK);
    return key;
}

void steps_put(struct record *record, const char *section, const char *name, const char *text)
{
    const struct reading_key key = steps_key(section, name);

    const bool gone = reading_key_is_change(&key) && strcmp(text, "absent") == 0;

    assert_int_equal(record_put(record, &key, gone ? RECORD_GONE : text, false, NULL), STATUS_OK);
}

void steps_drop(struct record *record, const char *section, const char *name)
{
    const struct reading_key key = steps_key(section, name);

    assert_true(record_remove(record, &key));
}

struct profile *steps_open(const char *path)
{
    struct profile *profile;

    assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
    return profile;
}

/* An opened profile and a copy of its record to change. */
struct profile *steps_open_to_change(const char *path, struct record *ret_record)
{
    struct profile *profile = steps_open(path);

    assert_int_equal(record_copy(profile_record(profile), ret_record), STATUS_OK);
    return profile;
}

void steps_save(struct profile *profile, struct record *record)
{
    assert_int_equal(profile_save(profile, record), STATUS_OK);
    assert_true(record_equal(profile_record(profile), record));
}

void steps_close(struct profile *profile, struct record *record)
{
    record_done(record);
    profile_close(profile);
}

/* Computes the [end] independently of the store. */
void steps_add_end(struct strbuf *text)
{
    int lines = 0;

    for (size_t i = 0; i < text->length; i++)
        lines += text->text[i] == '\n';
    const unsigned crc = crc32_of(text->text, text->length);
    strbuf_addf(text, "[end]\nlines = %d\ncrc32 = %08x\n", lines, crc);
    assert_false(text->truncated);
}

void steps_assert_saved(const char *path, const char *body)
{
    char memory[8192];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, body);
    steps_add_end(&text);
    tree_assert_text(path, memory);
}

void steps_write_whole(const char *path, const char *body)
{
    char memory[8192];
    struct strbuf text = STRBUF(memory);

    strbuf_add(&text, body);
    steps_add_end(&text);
    tree_write_text(path, memory);
}
