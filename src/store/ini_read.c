/* SPDX-License-Identifier: MIT */
#include "store/ini_read.h"

#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/ini_escape.h"
#include "store/ini_feed.h"

/* The section's name if the line is a key with a usable name; else NULL. */
static const char *section_of(const struct ini_text *text, const struct ini_line *line)
{
    if (line->kind != INI_KEY || !line->name)
        return NULL;
    return text->sections[line->section].name;
}

/*
 * Writes a line's value as the only key of a section named by its number, so that repeated names
 * can be told apart. Without name, indent and comment the line is never longer than in the file.
 */
static void add_line(const struct ini_line *line, size_t number, struct bytes *out)
{
    size_t length = line->rest_at - line->value_at;
    char memory[32];
    struct strbuf start = STRBUF(memory);

    strbuf_addf(&start, "[%zu]\nk=", number);
    bytes_add_text(out, memory);
    if (line->final_backslash)
        length--;
    bytes_add(out, line->logical + line->value_at, length);
    /* iniparser would take a backslash at the end of the line as a join. */
    if (line->final_backslash)
        bytes_add_text(out, "%5C");
    bytes_add_text(out, "\n");
}

/* If memory runs short, iniparser drops single values silently. */
static enum status take_value(const dictionary *loaded, size_t number, struct ini_entry *entry,
                              char **arena)
{
    char memory[32];
    struct strbuf name = STRBUF(memory);

    strbuf_addf(&name, "%zu:k", number);
    const char *value = iniparser_getstring(loaded, memory, NULL);
    if (!value)
        return STATUS_NO_MEMORY;
    entry->value = *arena;
    memcpy(entry->value, value, strlen(value) + 1);
    *arena += ini_unescape(entry->value, &entry->zero) + 1;
    return STATUS_OK;
}

static enum status list_entries(const struct ini_text *text, struct ini_entries *entries)
{
    entries->items = calloc(text->line_count + 1, sizeof entries->items[0]);
    /* A value is no longer than its line with name and `=`, even with %5C for a backslash. */
    entries->arena = malloc(text->bytes.length + text->line_count + 1);
    if (!entries->items || !entries->arena)
        return STATUS_NO_MEMORY;
    for (size_t i = 0; i < text->line_count; i++) {
        const char *section = section_of(text, &text->lines[i]);

        if (section)
            entries->items[entries->count++] =
                (struct ini_entry){.line = i, .section = section, .name = text->lines[i].name};
    }
    return STATUS_OK;
}

static enum status read_some(const struct ini_text *text, struct ini_entry *entries, size_t count,
                             char **arena)
{
    struct bytes feed;
    dictionary *loaded = NULL;

    bytes_init(&feed);
    for (size_t i = 0; i < count; i++)
        add_line(&text->lines[entries[i].line], i, &feed);
    enum status status = bytes_status(&feed);
    if (status == STATUS_OK)
        status = ini_feed(&feed, &loaded);
    bytes_done(&feed);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = take_value(loaded, i, &entries[i], arena);
    iniparser_freedict(loaded);
    return status;
}

/* In parts, because iniparser takes quadratic time. */
static enum status read_values(const struct ini_text *text, struct ini_entries *entries)
{
    enum { PART = 100 };
    char *arena = entries->arena;
    enum status status = STATUS_OK;

    for (size_t at = 0; status == STATUS_OK && at < entries->count; at += PART) {
        const size_t left = entries->count - at;

        status = read_some(text, &entries->items[at], left < PART ? left : PART, &arena);
    }
    return status;
}

enum status ini_read(const struct ini_text *text, struct ini_entries *ret_entries)
{
    struct ini_entries entries = {0};
    enum status status = list_entries(text, &entries);

    if (status == STATUS_OK)
        status = read_values(text, &entries);
    if (status != STATUS_OK)
        ini_entries_done(&entries);
    else
        *ret_entries = entries;
    return status;
}

void ini_entries_done(struct ini_entries *entries)
{
    free(entries->items);
    free(entries->arena);
    *entries = (struct ini_entries){0};
}
