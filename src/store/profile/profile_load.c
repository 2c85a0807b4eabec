/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_load.h"

#include <stdlib.h>
#include <string.h>

#include "model/reading/record_access.h"
#include "store/ini_read.h"
#include "store/profile/profile_find.h"
#include "store/profile/profile_lines.h"

/* A long record has few different values. What one was read as is remembered, in the place that its
 * hash gives it, until another takes that: a place for so many readings. */
enum { READINGS_A_VALUE = 16, VALUES_LEAST = 64, VALUES_MOST = 4096 };

struct value_read {
    const char *value; /* owned by the text, one for most lines that say the same; NULL: none */
    enum field_id field;
    struct field_value read;
};

struct loader {
    struct profile_content *content;
    struct problems *problems;
    struct profile_line *found; /* the content's lines in the order of the record */
    const bool *wanted;         /* by field, which readings are taken; NULL: all */
    const struct record *known; /* texts that were read before; NULL: none */
    size_t known_at;            /* those before it are below what is filled in */
    struct value_read *values;
    size_t value_count;
};

static void report(const struct loader *loader, size_t line, enum problem_severity severity,
                   const char *words)
{
    problem_add(loader->problems, line + 1, severity, "%s", words);
}

/* Of two lines of one reading. */
static int compare_parts(const struct profile_line *x, const struct profile_line *y)
{
    if (x->chunk != y->chunk)
        return x->chunk < y->chunk ? -1 : 1;
    return x->line < y->line ? -1 : x->line > y->line;
}

static int compare_found(const void *a, const void *b)
{
    const struct profile_line *x = a, *y = b;

    if (x->order != y->order)
        return x->order < y->order ? -1 : 1;
    return compare_parts(x, y);
}

static int compare_written(const void *a, const void *b)
{
    const struct profile_line *x = a, *y = b;
    const int order = reading_key_compare_written(&x->key, &y->key);

    return order != 0 ? order : compare_parts(x, y);
}

static const struct ini_line *line_of(const struct loader *loader, const struct profile_line *at)
{
    return &loader->content->text.lines[at->line];
}

/* Joins the parts of one reading; of a repeated part, the last one counts. */
static void join_parts(const struct loader *loader, const struct profile_line *first, size_t count,
                       struct bytes *out)
{
    int wanted = 0;

    for (size_t i = 0; i < count; i++) {
        const struct profile_line *at = &first[i];

        if (i + 1 < count && first[i + 1].chunk == at->chunk) {
            problem_add(loader->problems, at->line + 1, PROBLEM_WARNING,
                        "given again in line %zu, which is the one that counts",
                        (size_t)first[i + 1].line + 1);
            continue;
        }
        if (at->chunk != wanted)
            report(loader, at->line, PROBLEM_WARNING,
                   "the part of the text before this is missing");
        wanted = at->chunk + 1;
        bytes_add_text(out, line_of(loader, at)->value);
    }
    bytes_add(out, "", 1);
}

/* The reading with this very key and text among those that were read before; NULL if none is. */
static const struct reading *find_known(struct loader *loader, const struct reading_key *key,
                                        const char *text)
{
    const struct record *known = loader->known;
    int order = -1;

    for (; known && loader->known_at < known->count; loader->known_at++) {
        order = reading_key_compare(&known->readings[loader->known_at].key, key);
        if (order >= 0)
            break;
    }
    return order == 0 && strcmp(known->readings[loader->known_at].text, text) == 0
               ? &known->readings[loader->known_at]
               : NULL;
}

/* Of a reading whose text is refused, empty or unusual. */
static void report_value(struct loader *loader, const struct reading_key *key, const char *text,
                         enum status status, const char *words)
{
    const struct field *field = field_get(key->field);
    const size_t line = profile_line_number(loader->content, key);

    if (status == STATUS_OK)
        problem_add(loader->problems, line, PROBLEM_NOTE, "%s \"%s\" is unusual", field->label,
                    shown_string(text).text);
    else if (text[0] == '\0')
        problem_add(loader->problems, line, PROBLEM_NOTE, "%s is empty", field->label);
    else
        problem_add(loader->problems, line, PROBLEM_ERROR, "%s \"%s\": %s", field->label,
                    shown_string(text).text, words);
}

static enum status put_value(struct loader *loader, const struct reading_key *key, const char *text)
{
    struct record *record = &loader->content->record;
    const struct reading *known = find_known(loader, key, text);
    struct field_fault fault;

    if (known)
        return record_put_read(record, key, text, known->value);
    const enum status status = record_put(record, key, text, true, &fault);
    if (status == STATUS_NO_MEMORY)
        return status;
    /* `relief =` is a form that is not filled in yet. */
    if (status != STATUS_OK && text[0] == '\0')
        record_remove(record, key);
    if (loader->problems &&
        (status != STATUS_OK || record_find(record, key)->value.state == READING_UNUSUAL))
        report_value(loader, key, text, status, fault.words);
    return STATUS_OK;
}

/* Escaped, the word of the format is a text like any other. */
static bool is_gone(const struct reading_key *key, const struct ini_line *line)
{
    return reading_key_is_change(key) && !line->escaped && strcmp(line->value, PROFILE_GONE) == 0;
}

/* An empty line of a change says nothing; in the record an empty text would say that it is gone. */
static enum status put_text(struct loader *loader, const struct reading_key *key, const char *text)
{
    if (text[0] != '\0' || !reading_key_is_change(key))
        return put_value(loader, key, text);
    if (loader->problems)
        report_value(loader, key, text, STATUS_SYNTAX, "");
    return STATUS_OK;
}

static struct value_read *place_of_value(struct loader *loader, const char *value,
                                         enum field_id field)
{
    /* The high bits of such a product depend on all bits of the number. */
    const uint64_t hash = ((uintptr_t)value + (uint64_t)field * 8191) * 0x9E3779B97F4A7C15u;

    return &loader->values[(hash >> 32) % loader->value_count];
}

/* A reading of one line. What a value means depends on its field alone; one that has to be reported
 * is not remembered. */
static enum status put_line(struct loader *loader, const struct reading_key *key,
                            const struct ini_line *line)
{
    const char *text = line->value;
    struct value_read *value = place_of_value(loader, text, key->field);
    struct record *record = &loader->content->record;
    const size_t count = record->count;

    if (is_gone(key, line))
        return put_value(loader, key, RECORD_GONE);
    if (value->value == text && value->field == key->field)
        return record_put_read(record, key, text, value->read);
    const enum status status = put_text(loader, key, text);
    if (status == STATUS_OK && record->count == count + 1 &&
        record->readings[count].value.state == READING_GOOD)
        *value = (struct value_read){text, key->field, record->readings[count].value};
    return status;
}

static enum status put_reading(struct loader *loader, const struct profile_line *first,
                               size_t count)
{
    struct bytes text;

    if (count == 1 && first->chunk == 0)
        return put_line(loader, &first->key, line_of(loader, first));
    bytes_init(&text);
    join_parts(loader, first, count, &text);
    enum status status = bytes_status(&text);
    if (status == STATUS_OK)
        status = put_text(loader, &first->key, text.data);
    bytes_done(&text);
    return status;
}

/* Most files are in the record's order. */
static void sort_lines(struct profile_content *content)
{
    const struct profile_line *lines = content->lines;
    size_t i = 1;

    while (i < content->line_count && compare_found(&lines[i - 1], &lines[i]) < 0)
        i++;
    if (i < content->line_count)
        qsort(content->lines, content->line_count, sizeof content->lines[0], compare_found);
}

/* The order of the record is that of writing, unless there are changes. */
static enum status order_lines(struct loader *loader)
{
    struct profile_content *content = loader->content;
    bool changes = false;

    sort_lines(content);
    for (size_t i = 0; i < content->line_count; i++)
        changes = changes || reading_key_is_change(&content->lines[i].key);
    loader->found = content->lines;
    if (!changes)
        return STATUS_OK;
    const size_t size = content->line_count * sizeof loader->found[0];
    loader->found = malloc(size);
    if (!loader->found)
        return STATUS_NO_MEMORY;
    memcpy(loader->found, content->lines, size);
    qsort(content->lines, content->line_count, sizeof content->lines[0], compare_written);
    return STATUS_OK;
}

/* Room for all texts, unless they are joined from parts or spelled out. */
static enum status make_room(const struct loader *loader)
{
    const size_t count = loader->content->line_count;
    size_t bytes = 0;

    for (size_t i = 0; i < count; i++)
        bytes += strlen(line_of(loader, &loader->found[i])->value) + 1;
    return record_reserve(&loader->content->record, count, bytes);
}

/* Fills the record in its own order, which is fastest. */
static enum status fill_record(struct loader *loader)
{
    const size_t all = loader->content->line_count;
    size_t count;

    enum status status = order_lines(loader);
    if (status == STATUS_OK)
        status = make_room(loader);
    for (size_t i = 0; status == STATUS_OK && i < all; i += count) {
        const struct profile_line *first = &loader->found[i];

        for (count = 1; i + count < all; count++)
            if (first->order != first[count].order)
                break;
        status = put_reading(loader, first, count);
    }
    return status;
}

static enum status find_readings(struct loader *loader)
{
    struct profile_content *content = loader->content;

    content->lines = malloc((content->text.line_count + 1) * sizeof content->lines[0]);
    if (!content->lines)
        return STATUS_NO_MEMORY;
    content->line_count = profile_find(&content->text, loader->problems, content->lines);
    loader->value_count = VALUES_LEAST;
    while (loader->value_count < VALUES_MOST &&
           loader->value_count * READINGS_A_VALUE < content->line_count)
        loader->value_count *= 2;
    loader->values = calloc(loader->value_count, sizeof loader->values[0]);
    return loader->values ? STATUS_OK : STATUS_NO_MEMORY;
}

static void report_end(const struct loader *loader, size_t line)
{
    if (loader->content->end == INI_END_MISSING)
        problem_add(loader->problems, 0, PROBLEM_WARNING,
                    "there is no [end]: written by hand, or cut short");
    else if (loader->content->end == INI_END_WRONG)
        problem_add(loader->problems, line, PROBLEM_WARNING,
                    "[end] does not match: changed by hand since it was kept, or damaged");
}

static void report_length(const struct loader *loader)
{
    const struct ini_text *text = &loader->content->text;

    if (profile_is_long(loader->content))
        problem_add(loader->problems, 0, PROBLEM_WARNING,
                    "long: %zu of %d lines, %zu of %d MB; go on in a copy, which "
                    "leaves the visits here",
                    text->line_count, PROFILE_LINES_MAX, text->bytes.length / 1000000,
                    PROFILE_BYTES_MAX / 1000000);
}

/* In a later format the keys may mean anything. */
static bool is_newer(const struct record *record)
{
    const struct reading_key key = reading_key_one(FIELD_FORMAT);
    const struct maybe format = record_entered(record, key);

    if (!record_find(record, &key))
        return false;
    return !format.given || format.value > PROFILE_FORMAT_MAX;
}

static enum status load(struct loader *loader)
{
    struct profile_content *content = loader->content;
    struct ini_text *text = &content->text;
    /* The data of an empty text is NULL. */
    const char *body = text->start > 0 ? text->bytes.data + text->start : text->bytes.data;
    size_t end_line;

    if (loader->wanted)
        profile_find_wanted(text, loader->wanted);
    enum status status = ini_read(text);
    if (status != STATUS_OK)
        return status;
    content->end = ini_end_check(body, text->bytes.length - text->start, &end_line);
    report_end(loader, end_line);
    report_length(loader);
    profile_report_lines(content, loader->problems);
    status = find_readings(loader);
    if (status == STATUS_OK)
        status = fill_record(loader);
    if (status != STATUS_OK)
        return status;
    content->newer = is_newer(&content->record);
    return profile_is_one(content) ? STATUS_OK : STATUS_SYNTAX;
}

/* The loader says how; its content is made here. */
static enum status load_bytes(struct bytes *bytes, struct loader loader,
                              struct profile_content *ret_content)
{
    struct profile_content content = {0};
    struct ini_fault fault = {0};
    enum status status = ini_text_parse(bytes, &content.text, &fault);

    loader.content = &content;
    if (status != STATUS_OK) {
        if (fault.words)
            problem_add(loader.problems, fault.line, PROBLEM_ERROR, "%s", fault.words);
        return status;
    }
    record_init(&content.record);
    status = load(&loader);
    if (loader.found != content.lines)
        free(loader.found);
    free(loader.values);
    if (status == STATUS_OK) {
        *ret_content = content;
        return STATUS_OK;
    }
    *bytes = content.text.bytes; /* back to the caller */
    bytes_init(&content.text.bytes);
    profile_content_done(&content);
    return status;
}

enum status profile_load(struct bytes *bytes, struct problems *problems,
                         struct profile_content *ret_content)
{
    return load_bytes(bytes, (struct loader){.problems = problems}, ret_content);
}

enum status profile_load_back(struct bytes *bytes, const struct record *known,
                              struct profile_content *ret_content)
{
    return load_bytes(bytes, (struct loader){.known = known}, ret_content);
}

enum status profile_glance(struct bytes *bytes, const bool wanted[FIELD_COUNT_],
                           struct profile_content *ret_content)
{
    return load_bytes(bytes, (struct loader){.wanted = wanted}, ret_content);
}
