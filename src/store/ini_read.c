/* SPDX-License-Identifier: MIT */
#include "store/ini_read.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/ini_escape.h"
#include "store/ini_feed.h"

/* Values that are remembered, and in how many places one is looked for. */
enum { VALUES_REMEMBERED = 4096, TRIES = 8 };

struct reader {
    const struct ini_text *text;
    struct ini_entries *entries;
    /* By the hash of a value: the number from 1 of an entry with it; 0: none yet. */
    uint32_t slots[VALUES_REMEMBERED];
    uint32_t *first; /* by entry: an earlier one with the same value, or itself */
    char *free;      /* the unused part of the arena */
};

static const struct ini_line *line_of(const struct reader *reader, size_t number)
{
    return &reader->text->lines[reader->entries->items[number].line];
}

static size_t value_length(const struct ini_line *line)
{
    return (size_t)line->rest_at - line->value_at;
}

/* The section's name if the line is a key with a usable name; else NULL. */
static const char *section_of(const struct ini_text *text, const struct ini_line *line)
{
    if (line->kind != INI_KEY || !line->name)
        return NULL;
    return text->sections[line->section].name;
}

/*
 * Values that iniparser gets at a time. It searches its dictionary from the start for every key,
 * and with these and their sections' names stays within what it allots at first.
 */
enum { KEYS = 36, PART = 3 * KEYS };

/* The name that iniparser knows the value of a part by: a section and a key of one character each,
 * so that repeated names can be told apart, and no line gets longer than in the file. */
static void add_name(size_t number, struct strbuf *out)
{
    static const char digits[] = "0123456789abcdefghijklmnopqrstuvwxyz";

    strbuf_add_char(out, digits[number / KEYS]);
    strbuf_add_char(out, ':');
    strbuf_add_char(out, digits[number % KEYS]);
}

static void add_line(const struct ini_line *line, size_t number, struct bytes *out)
{
    size_t length = value_length(line);
    char memory[8];
    struct strbuf name = STRBUF(memory);

    add_name(number, &name);
    if (number % KEYS == 0) {
        const char section[] = {'[', memory[0], ']', '\n'};

        bytes_add(out, section, sizeof section);
    }
    const char key[] = {memory[2], '='};
    bytes_add(out, key, sizeof key);
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
    char memory[8];
    struct strbuf name = STRBUF(memory);

    add_name(number, &name);
    const char *value = iniparser_getstring(loaded, memory, NULL);
    if (!value)
        return STATUS_NO_MEMORY;
    const size_t length = strlen(value);
    char *copy = memcpy(*arena, value, length + 1);
    entry->value = copy;
    const size_t decoded = ini_unescape(copy, &entry->zero);
    entry->escaped = decoded < length;
    *arena += decoded + 1;
    return STATUS_OK;
}

enum status ini_list(const struct ini_text *text, struct ini_entries *entries)
{
    *entries = (struct ini_entries){0};
    entries->items = calloc(text->line_count + 1, sizeof entries->items[0]);
    /* A value is no longer than its line with name and `=`, even with %5C for a backslash. */
    entries->arena = malloc(text->bytes.length + text->line_count + 1);
    if (!entries->items || !entries->arena)
        return STATUS_NO_MEMORY;
    for (uint32_t i = 0; i < text->line_count; i++) {
        const char *section = section_of(text, &text->lines[i]);

        if (section)
            entries->items[entries->count++] =
                (struct ini_entry){.line = i, .section = section, .name = text->lines[i].name};
    }
    return STATUS_OK;
}

static enum status read_some(struct reader *reader, const size_t *numbers, size_t count)
{
    struct bytes feed;
    dictionary *loaded = NULL;

    bytes_init(&feed);
    for (size_t i = 0; i < count; i++)
        add_line(line_of(reader, numbers[i]), i, &feed);
    enum status status = bytes_status(&feed);
    if (status == STATUS_OK)
        status = ini_feed(&feed, &loaded);
    bytes_done(&feed);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = take_value(loaded, i, &reader->entries->items[numbers[i]], &reader->free);
    iniparser_freedict(loaded);
    return status;
}

/* 32-bit FNV-1a. */
static uint32_t hash_of(const struct ini_line *line)
{
    uint32_t hash = 2166136261u;

    for (size_t i = line->value_at; i < line->rest_at; i++)
        hash = (hash ^ (unsigned char)line->logical[i]) * 16777619u;
    return hash;
}

static bool is_same_value(const struct ini_line *a, const struct ini_line *b)
{
    const size_t length = value_length(a);

    return length == value_length(b) && a->final_backslash == b->final_backslash &&
           memcmp(a->logical + a->value_at, b->logical + b->value_at, length) == 0;
}

/* An entry that was read, whose value is written with the same bytes; this one if none is
 * remembered. Not searched for long: a file may be made so that the hashes of its values meet. */
static uint32_t find_first(struct reader *reader, uint32_t number)
{
    const struct ini_line *line = line_of(reader, number);
    const uint32_t hash = hash_of(line);
    uint32_t *slot = NULL;

    for (uint32_t i = 0; i < TRIES; i++) {
        slot = &reader->slots[(hash + i) % VALUES_REMEMBERED];
        if (*slot == 0)
            break;
        if (is_same_value(line_of(reader, *slot - 1), line))
            return *slot - 1;
    }
    *slot = number + 1;
    return number;
}

/* What is written the same is read once: in a long record most values are. */
static enum status read_values(struct reader *reader)
{
    struct ini_entries *entries = reader->entries;
    enum status status = STATUS_OK;
    size_t part[PART], count = 0;

    for (uint32_t i = 0; status == STATUS_OK && i < entries->count; i++) {
        reader->first[i] = entries->items[i].skipped ? i : find_first(reader, i);
        if (reader->first[i] == i && !entries->items[i].skipped)
            part[count++] = i;
        if (count == PART || (count > 0 && i + 1 == entries->count)) {
            status = read_some(reader, part, count);
            count = 0;
        }
    }
    for (size_t i = 0; status == STATUS_OK && i < entries->count; i++) {
        const struct ini_entry *first = &entries->items[reader->first[i]];

        entries->items[i].value = first->value;
        entries->items[i].zero = first->zero;
        entries->items[i].escaped = first->escaped;
    }
    return status;
}

enum status ini_read_values(const struct ini_text *text, struct ini_entries *entries)
{
    struct reader reader = {.text = text,
                            .entries = entries,
                            .first = calloc(entries->count + 1, sizeof reader.first[0]),
                            .free = entries->arena};
    const enum status status = reader.first ? read_values(&reader) : STATUS_NO_MEMORY;

    free(reader.first);
    return status;
}

enum status ini_read(const struct ini_text *text, struct ini_entries *ret_entries)
{
    struct ini_entries entries = {0};
    enum status status = ini_list(text, &entries);

    if (status == STATUS_OK)
        status = ini_read_values(text, &entries);
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
