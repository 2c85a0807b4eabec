/* SPDX-License-Identifier: MIT */
#include "store/ini_read.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/ini_escape.h"
#include "store/ini_feed.h"

/* iniparser's own name of a key: "section:name". */
enum { ENTRY_NAME_SIZE = 2 * INI_NAME_MAX + 2 };

/* The section's name when the line is a key that can be asked for; else NULL. */
static const char *section_of(const struct ini_text *text, const struct ini_line *line)
{
    if (line->kind != INI_KEY || !line->name)
        return NULL;
    return text->sections[line->section].name;
}

/* `name=value` without indents and comments, so that it is never longer than in the file. */
static void add_key(const struct ini_line *line, struct bytes *out)
{
    size_t length = line->rest_at - line->value_at;

    bytes_add_text(out, line->name);
    bytes_add_text(out, "=");
    if (line->final_backslash)
        length--;
    bytes_add(out, line->logical + line->value_at, length);
    /* At the end of a line iniparser would take it as a join, and swallow the next key. */
    if (line->final_backslash)
        bytes_add_text(out, "%5C");
    bytes_add_text(out, "\n");
}

/* The lines of some entries, each section named before its own. */
static void write_feed(const struct ini_text *text, const struct ini_entry *entries, size_t count,
                       struct bytes *out)
{
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || entries[i].section != entries[i - 1].section) {
            bytes_add_text(out, "[");
            bytes_add_text(out, entries[i].section);
            bytes_add_text(out, "]\n");
        }
        add_key(&text->lines[entries[i].line], out);
    }
}

static int compare_entries(const void *a, const void *b)
{
    const struct ini_entry *const *x = a;
    const struct ini_entry *const *y = b;
    int order = strcmp((*x)->section, (*y)->section);

    if (order == 0)
        order = strcmp((*x)->name, (*y)->name);
    if (order == 0)
        order = (*x)->line < (*y)->line ? -1 : (*x)->line > (*y)->line;
    return order;
}

static enum status mark_repeated(struct ini_entries *entries)
{
    struct ini_entry **sorted = malloc((entries->count + 1) * sizeof *sorted);

    if (!sorted)
        return STATUS_NO_MEMORY;
    for (size_t i = 0; i < entries->count; i++)
        sorted[i] = &entries->items[i];
    qsort(sorted, entries->count, sizeof *sorted, compare_entries);
    for (size_t i = 0; i + 1 < entries->count; i++)
        sorted[i]->repeated = strcmp(sorted[i]->section, sorted[i + 1]->section) == 0 &&
                              strcmp(sorted[i]->name, sorted[i + 1]->name) == 0;
    free(sorted);
    return STATUS_OK;
}

/* Two readings of one value; the feed spelled a final backslash as an escape. */
static bool agree(const struct ini_line *line, const char *theirs)
{
    const size_t length = strlen(line->value);

    if (!line->final_backslash)
        return strcmp(line->value, theirs) == 0;
    return length > 0 && strncmp(line->value, theirs, length - 1) == 0 &&
           strcmp(theirs + length - 1, "%5C") == 0;
}

static void take_value(const struct ini_text *text, const dictionary *loaded,
                       struct ini_entry *entry, char **arena)
{
    const struct ini_line *line = &text->lines[entry->line];
    const char *value = line->value;
    char name[ENTRY_NAME_SIZE];

    if (!entry->repeated) {
        snprintf(name, sizeof name, "%s:%s", entry->section, entry->name);
        const char *theirs = iniparser_getstring(loaded, name, NULL);

        entry->disputed = !theirs || !agree(line, theirs);
        /* The arena has room for what a line can hold. */
        if (theirs && entry->disputed && strlen(theirs) <= strlen(line->logical))
            value = theirs;
    }
    entry->value = *arena;
    memcpy(entry->value, value, strlen(value) + 1);
    *arena += ini_unescape(entry->value, &entry->zero) + 1;
}

static enum status list_entries(const struct ini_text *text, struct ini_entries *entries)
{
    entries->items = calloc(text->line_count + 1, sizeof entries->items[0]);
    entries->arena = malloc(text->bytes.length + text->line_count + 1);
    if (!entries->items || !entries->arena)
        return STATUS_NO_MEMORY;
    for (size_t i = 0; i < text->line_count; i++) {
        const char *section = section_of(text, &text->lines[i]);

        if (section)
            entries->items[entries->count++] =
                (struct ini_entry){.line = i, .section = section, .name = text->lines[i].name};
    }
    return mark_repeated(entries);
}

static enum status read_some(const struct ini_text *text, struct ini_entry *entries, size_t count,
                             char **arena)
{
    struct bytes feed;
    dictionary *loaded = NULL;

    bytes_init(&feed);
    write_feed(text, entries, count, &feed);
    enum status status = bytes_status(&feed);
    if (status == STATUS_OK)
        status = ini_feed(&feed, &loaded);
    bytes_done(&feed);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < count; i++)
        take_value(text, loaded, &entries[i], arena);
    iniparser_freedict(loaded);
    return STATUS_OK;
}

/* A part of the file at a time, since iniparser takes the square of what it holds. Of a repeated
 * name the last is asked for, which is the last of its part. */
static enum status read_values(const struct ini_text *text, struct ini_entries *entries)
{
    enum { PART = 200 };
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
