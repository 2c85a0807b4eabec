/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_load.h"

#include <stdlib.h>
#include <string.h>

#include "model/reading/record_access.h"
#include "store/ini_read.h"
#include "store/profile/profile_lines.h"

/* A key line on its way into the record. */
struct found {
    struct profile_line at;
    const struct ini_entry *entry;
};

struct loader {
    struct profile_content *content;
    struct problems *problems;
    struct ini_entries entries;
    struct found *found; /* room for one for each entry */
    size_t found_count;
    const bool *wanted;         /* by field, which readings are taken; NULL: all */
    const struct record *known; /* texts that were read before; NULL: none */
    size_t known_at;            /* those before it are below what is filled in */
};

static void report(const struct loader *loader, size_t line, enum problem_severity severity,
                   const char *words)
{
    problem_add(loader->problems, line + 1, severity, "%s", words);
}

/* The N of "name.N", with *ret_length that of the name; 0 if there is no N. */
static int take_chunk(const char *name, size_t *ret_length)
{
    const char *dot = strrchr(name, '.');
    int chunk;

    if (!dot || dot == name || dot[1] == '0' ||
        num_count(dot + 1, strlen(dot + 1), 999, &chunk) != STATUS_OK)
        return 0;
    *ret_length = (size_t)(dot - name);
    return chunk;
}

/*
 * Finds the reading that a key line belongs to. Only a text continues in name.N, and no text has a
 * number in its own name, so the two cannot be confused.
 */
static bool resolve(const struct reading_section *section, const struct ini_entry *entry,
                    struct profile_line *ret_line)
{
    struct profile_line line = {.line = entry->line};
    char name[64];
    size_t length;

    if (reading_section_find(section, entry->name, &line.key) != STATUS_OK) {
        line.chunk = take_chunk(entry->name, &length);
        if (line.chunk == 0 || length >= sizeof name)
            return false;
        memcpy(name, entry->name, length);
        name[length] = '\0';
        if (reading_section_find(section, name, &line.key) != STATUS_OK ||
            field_get(line.key.field)->kind != KIND_TEXT)
            return false;
    }
    *ret_line = line;
    return true;
}

static bool is_end_key(const struct ini_entry *entry)
{
    return strcmp(entry->section, "end") == 0 &&
           (strcmp(entry->name, "lines") == 0 || strcmp(entry->name, "crc32") == 0);
}

static void report_unknown(const struct loader *loader, const struct ini_entry *entry)
{
    if (is_end_key(entry))
        return;
    if (reading_key_is_correction(entry->section, entry->name))
        problem_add(loader->problems, entry->line + 1, PROBLEM_ERROR,
                    "%s is the same in all visits; the line is kept and not used",
                    shown_string(entry->name).text);
    else if (strcmp(entry->section, "end") == 0)
        report(loader, entry->line, PROBLEM_WARNING,
               "readings in [end] are not used; move it to its section");
    else if (reading_key_is_section(entry->section))
        problem_add(loader->problems, entry->line + 1, PROBLEM_NOTE,
                    "[%s] has no key %s; the line is kept and not used",
                    shown_string(entry->section).text, shown_string(entry->name).text);
}

/* The section of an entry. */
struct spelled {
    const char *name; /* one text for all entries of a section */
    struct reading_section section;
    bool known;
};

static void spell(struct spelled *spelled, const struct ini_entry *entry)
{
    if (entry->section == spelled->name)
        return;
    spelled->name = entry->section;
    spelled->known = reading_section_parse(entry->section, &spelled->section);
}

static void resolve_entries(struct loader *loader)
{
    struct spelled spelled = {.name = NULL};

    for (size_t i = 0; i < loader->entries.count; i++) {
        const struct ini_entry *entry = &loader->entries.items[i];
        struct found *found = &loader->found[loader->found_count];

        if (entry->skipped)
            continue;
        if (entry->zero)
            report(loader, entry->line, PROBLEM_NOTE, "%00 means nothing and is left as it is");
        found->entry = entry;
        spell(&spelled, entry);
        if (spelled.known && resolve(&spelled.section, entry, &found->at))
            loader->found_count++;
        else
            report_unknown(loader, entry);
    }
}

/* Whether two entries are of the same visit, or of the same string; or of neither. */
static bool is_of_same(const struct reading_section *a, const struct reading_section *b)
{
    return a->numbers[0] == b->numbers[0] && a->changed_in == b->changed_in &&
           (a->section == SECTION_STRING) == (b->section == SECTION_STRING);
}

/* An empty reading counts for nothing; what iniparser makes of quotes is not known yet. */
static bool is_surely_something(const struct ini_text *text, const struct ini_entry *entry)
{
    const struct ini_line *line = &text->lines[entry->line];
    const char first = line->logical[line->value_at];

    return line->rest_at > line->value_at && first != '"' && first != '\'';
}

/* The first reading of each visit and string is taken too, whatever it is: it tells that there is
 * such a one. */
static void choose_entries(struct loader *loader)
{
    bool section_wanted[SECTION_COUNT_ + 1] = {false};
    struct spelled spelled = {.name = NULL};
    struct reading_section taken = {.section = SECTION_COUNT_};
    struct profile_line line;

    for (int id = 0; loader->wanted && id < FIELD_COUNT_; id++)
        section_wanted[field_get((enum field_id)id)->section] |= loader->wanted[id];
    for (size_t i = 0; loader->wanted && i < loader->entries.count; i++) {
        struct ini_entry *entry = &loader->entries.items[i];

        spell(&spelled, entry);
        const bool first = spelled.known && !is_of_same(&taken, &spelled.section);
        entry->skipped =
            !(spelled.known && (first || section_wanted[spelled.section.section]) &&
              resolve(&spelled.section, entry, &line) && (first || loader->wanted[line.key.field]));
        if (!entry->skipped && is_surely_something(&loader->content->text, entry))
            taken = spelled.section;
    }
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
    const struct profile_line *x = &((const struct found *)a)->at;
    const struct profile_line *y = &((const struct found *)b)->at;
    const int order = reading_key_compare(&x->key, &y->key);

    return order != 0 ? order : compare_parts(x, y);
}

static int compare_written(const void *a, const void *b)
{
    const struct profile_line *x = a, *y = b;
    const int order = reading_key_compare_written(&x->key, &y->key);

    return order != 0 ? order : compare_parts(x, y);
}

/* Joins the parts of one reading; of a repeated part, the last one counts. */
static void join_parts(const struct loader *loader, const struct found *first, size_t count,
                       struct bytes *out)
{
    int wanted = 0;

    for (size_t i = 0; i < count; i++) {
        const struct profile_line *at = &first[i].at;

        if (i + 1 < count && first[i + 1].at.chunk == at->chunk) {
            problem_add(loader->problems, at->line + 1, PROBLEM_WARNING,
                        "given again in line %zu, which is the one that counts",
                        first[i + 1].at.line + 1);
            continue;
        }
        if (at->chunk != wanted)
            report(loader, at->line, PROBLEM_WARNING,
                   "the part of the text before this is missing");
        wanted = at->chunk + 1;
        bytes_add_text(out, first[i].entry->value);
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
static bool is_gone(const struct found *found)
{
    return reading_key_is_change(&found->at.key) && !found->entry->escaped &&
           strcmp(found->entry->value, PROFILE_GONE) == 0;
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

static enum status put_reading(struct loader *loader, const struct found *first, size_t count)
{
    struct bytes text;

    if (count == 1 && first->at.chunk == 0)
        return is_gone(first) ? put_value(loader, &first->at.key, RECORD_GONE)
                              : put_text(loader, &first->at.key, first->entry->value);
    bytes_init(&text);
    join_parts(loader, first, count, &text);
    enum status status = bytes_status(&text);
    if (status == STATUS_OK)
        status = put_text(loader, &first->at.key, text.data);
    bytes_done(&text);
    return status;
}

/* Most files are in the record's order. */
static void sort_found(struct loader *loader)
{
    size_t i = 1;

    while (i < loader->found_count && compare_found(&loader->found[i - 1], &loader->found[i]) < 0)
        i++;
    if (i < loader->found_count)
        qsort(loader->found, loader->found_count, sizeof loader->found[0], compare_found);
}

/* The lines in the order of writing. Without changes it is the record's, which they have already.
 */
static enum status list_lines(const struct loader *loader)
{
    struct profile_content *content = loader->content;
    bool changes = false;

    content->lines = malloc((loader->found_count + 1) * sizeof content->lines[0]);
    if (!content->lines)
        return STATUS_NO_MEMORY;
    for (size_t i = 0; i < loader->found_count; i++) {
        content->lines[i] = loader->found[i].at;
        changes = changes || reading_key_is_change(&loader->found[i].at.key);
    }
    content->line_count = loader->found_count;
    if (changes)
        qsort(content->lines, content->line_count, sizeof content->lines[0], compare_written);
    return STATUS_OK;
}

/* Fills the record in its own order, which is fastest. */
static enum status fill_record(struct loader *loader)
{
    size_t count;

    sort_found(loader);
    enum status status = list_lines(loader);
    for (size_t i = 0; status == STATUS_OK && i < loader->found_count; i += count) {
        const struct found *first = &loader->found[i];

        for (count = 1; i + count < loader->found_count; count++)
            if (reading_key_compare(&first->at.key, &first[count].at.key) != 0)
                break;
        status = put_reading(loader, first, count);
    }
    return status;
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
    const struct ini_text *text = &content->text;
    /* The data of an empty text is NULL. */
    const char *body = text->start > 0 ? text->bytes.data + text->start : text->bytes.data;
    size_t end_line;
    enum status status = ini_list(text, &loader->entries);

    if (status != STATUS_OK)
        return status;
    choose_entries(loader);
    status = ini_read_values(text, &loader->entries);
    if (status != STATUS_OK)
        return status;
    loader->found = malloc((loader->entries.count + 1) * sizeof loader->found[0]);
    if (!loader->found)
        return STATUS_NO_MEMORY;
    content->end = ini_end_check(body, text->bytes.length - text->start, &end_line);
    report_end(loader, end_line);
    report_length(loader);
    profile_report_lines(content, loader->problems);
    resolve_entries(loader);
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
    ini_entries_done(&loader.entries);
    free(loader.found);
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
