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
    struct ini_text *text;
    /* By the hash of a value: the number from 1 of a line with it; 0: none yet. */
    uint32_t slots[VALUES_REMEMBERED];
    uint32_t *first; /* by line: an earlier one with the same value, or itself */
    char *free;      /* the unused part of the text's values */
};

static bool is_wanted(const struct ini_text *text, const struct ini_line *line)
{
    return ini_line_section(text, line) && !line->skipped;
}

static size_t value_length(const struct ini_line *line)
{
    return (size_t)line->rest_at - line->value_at;
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
static enum status take_value(const dictionary *loaded, size_t number, struct ini_line *line,
                              char **free)
{
    char memory[8];
    struct strbuf name = STRBUF(memory);

    add_name(number, &name);
    const char *value = iniparser_getstring(loaded, memory, NULL);
    if (!value)
        return STATUS_NO_MEMORY;
    const size_t length = strlen(value);
    char *copy = memcpy(*free, value, length + 1);
    bool zero = false;
    const size_t decoded = ini_unescape(copy, &zero);
    line->value = copy;
    line->zero = zero;
    line->escaped = decoded < length;
    *free += decoded + 1;
    return STATUS_OK;
}

static enum status read_some(struct reader *reader, const size_t *numbers, size_t count)
{
    struct bytes feed;
    dictionary *loaded = NULL;

    bytes_init(&feed);
    for (size_t i = 0; i < count; i++)
        add_line(&reader->text->lines[numbers[i]], i, &feed);
    enum status status = bytes_status(&feed);
    if (status == STATUS_OK)
        status = ini_feed(&feed, &loaded);
    bytes_done(&feed);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = take_value(loaded, i, &reader->text->lines[numbers[i]], &reader->free);
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

/* A line that was read, whose value is written with the same bytes; this one if none is remembered.
 * Not searched for long: a file may be made so that the hashes of its values meet. */
static uint32_t find_first(struct reader *reader, uint32_t number)
{
    const struct ini_line *lines = reader->text->lines;
    const uint32_t hash = hash_of(&lines[number]);
    uint32_t *slot = NULL;

    for (uint32_t i = 0; i < TRIES; i++) {
        slot = &reader->slots[(hash + i) % VALUES_REMEMBERED];
        if (*slot == 0)
            break;
        if (is_same_value(&lines[*slot - 1], &lines[number]))
            return *slot - 1;
    }
    *slot = number + 1;
    return number;
}

/* What is written the same is read once: in a long record most values are. */
static enum status read_first(struct reader *reader)
{
    struct ini_text *text = reader->text;
    enum status status = STATUS_OK;
    size_t part[PART], count = 0;

    for (uint32_t i = 0; status == STATUS_OK && i < text->line_count; i++) {
        if (!is_wanted(text, &text->lines[i]))
            continue;
        reader->first[i] = find_first(reader, i);
        if (reader->first[i] == i)
            part[count++] = i;
        if (count == PART) {
            status = read_some(reader, part, count);
            count = 0;
        }
    }
    return status == STATUS_OK && count > 0 ? read_some(reader, part, count) : status;
}

static void share_values(const struct reader *reader)
{
    struct ini_text *text = reader->text;

    for (size_t i = 0; i < text->line_count; i++) {
        struct ini_line *line = &text->lines[i];

        if (!is_wanted(text, line))
            continue;
        const struct ini_line *first = &text->lines[reader->first[i]];
        line->value = first->value;
        line->zero = first->zero;
        line->escaped = first->escaped;
    }
}

enum status ini_read(struct ini_text *text)
{
    struct reader reader = {.text = text};
    enum status status = STATUS_NO_MEMORY;

    reader.first = malloc((text->line_count + 1) * sizeof reader.first[0]);
    /* A value is no longer than its line with name and `=`, even with %5C for a backslash. */
    text->values = reader.free = malloc(text->bytes.length + text->line_count + 1);
    if (reader.first && text->values)
        status = read_first(&reader);
    if (status == STATUS_OK)
        share_values(&reader);
    free(reader.first);
    return status;
}
