/* SPDX-License-Identifier: MIT */
#include "store/shop_targets.h"

#include <string.h>

#include "model/reading/record_access.h"
#include "model/reading/shop_own.h"
#include "store/shop_file.h"

enum { SECTION_SIZE = 64 };

static const char head[] = "targets.";

static enum field_id field_of(const char *key)
{
    enum field_id field;
    int k = 0;

    do
        field = shop_own_field(k++);
    while (field != FIELD_COUNT_ && strcmp(field_get(field)->key, key) != 0);
    return field;
}

/* The kind of a section; -1 for none. */
static int kind_of(const char *section)
{
    char name[KIND_NAME_SIZE];

    if (strncmp(section, head, sizeof head - 1) != 0)
        return -1;
    for (int k = 0; field_choice(field_get(FIELD_KIND), k, name, sizeof name); k++)
        if (strcmp(section + sizeof head - 1, name) == 0)
            return k;
    return -1;
}

/* "targets.steel-string"; false if the record has no kind. */
static bool section_of(const struct record *record, char section[SECTION_SIZE])
{
    struct strbuf text = strbuf_over(section, SECTION_SIZE);
    char name[KIND_NAME_SIZE];

    if (!record_kind(record, name))
        return false;
    strbuf_addf(&text, "%s%s", head, name);
    return true;
}

/* --- reading --- */

static bool is_understood(enum field_id id, const char *text, struct field_fault *ret_fault)
{
    const struct field *field = field_get(id);
    struct field_value unused;

    return field_read(field, text, field_file_unit(field), &unused, ret_fault) == STATUS_OK;
}

enum status shop_targets_take(const char *path, struct record *record, int *ret_count)
{
    char section[SECTION_SIZE];
    struct shop_file file;
    enum status status;

    *ret_count = 0;
    if (!section_of(record, section))
        return STATUS_OK;
    status = shop_file_load(path, NULL, &file);
    if (status != STATUS_OK)
        return status;
    for (int k = 0; shop_own_field(k) != FIELD_COUNT_ && status != STATUS_NO_MEMORY; k++) {
        const struct reading_key key = reading_key_one(shop_own_field(k));
        const struct ini_line *line = shop_file_find(&file, section, field_get(key.field)->key);

        status = line ? record_put(record, &key, line->value, false, NULL) : STATUS_OK;
        *ret_count += line && status == STATUS_OK;
    }
    shop_file_done(&file);
    return status == STATUS_NO_MEMORY ? status : STATUS_OK;
}

enum status shop_targets_kinds(const char *path, unsigned *ret_kinds)
{
    struct shop_file file;
    const enum status status = shop_file_load(path, NULL, &file);

    *ret_kinds = 0;
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < file.text.line_count; i++) {
        const struct ini_line *line = &file.text.lines[i];
        const char *section = ini_line_section(&file.text, line);
        const int kind = section ? kind_of(section) : -1;

        if (kind >= 0 && field_of(line->name) != FIELD_COUNT_)
            *ret_kinds |= SHOP_TARGETS_BIT(kind);
    }
    shop_file_done(&file);
    return STATUS_OK;
}

bool shop_targets_check(const struct ini_text *text, const struct ini_line *line,
                        struct problems *problems)
{
    const enum field_id field = field_of(line->name);
    struct field_fault fault;

    if (kind_of(ini_line_section(text, line)) < 0 || field == FIELD_COUNT_)
        return false;
    if (!is_understood(field, line->value, &fault))
        problem_add(problems, ini_line_number(text, line), PROBLEM_ERROR, "%s \"%s\": %s",
                    line->name, shown_string(line->value).text, fault.words);
    return true;
}

/* --- writing --- */

/* Whether a line of the file is one of the section's own, so that it may go with it. */
static bool may_go(const struct shop_file *file, size_t line)
{
    const struct ini_line *at = &file->text.lines[line];

    return at->kind == INI_SECTION || at->kind == INI_BLANK || at->kind == INI_CONTINUATION ||
           (at->kind == INI_KEY && at->name && field_of(at->name) != FIELD_COUNT_);
}

/* Takes out the line of every section of that name with nothing else under it. */
static void drop_sections(struct shop_edits *edits, const char *section)
{
    const struct ini_text *text = &shop_edits_file(edits)->text;

    for (size_t s = 1; s < text->section_count; s++) {
        bool goes = text->sections[s].name && strcmp(text->sections[s].name, section) == 0;

        for (size_t i = 0; goes && i < text->line_count; i++)
            goes = text->lines[i].section != s || may_go(shop_edits_file(edits), i);
        if (goes)
            shop_edits_drop(edits, text->sections[s].line);
    }
}

/* Takes out the targets that `record` does not have; with NULL all of them. */
static void drop_others(struct shop_edits *edits, const char *section, const struct record *record)
{
    const struct ini_text *text = &shop_edits_file(edits)->text;

    for (size_t i = 0; i < text->line_count; i++) {
        const char *of = ini_line_section(text, &text->lines[i]);
        const enum field_id field = of ? field_of(text->lines[i].name) : FIELD_COUNT_;

        if (field != FIELD_COUNT_ && strcmp(of, section) == 0 &&
            !(record && shop_own_text(record, field)))
            shop_edits_drop(edits, i);
    }
}

static enum status keep(struct shop_edits *edits, const void *wanted)
{
    const struct record *record = wanted;
    char section[SECTION_SIZE];

    if (!section_of(record, section) || shop_own_count(record) == 0)
        return STATUS_ABSENT;
    for (int k = 0; shop_own_field(k) != FIELD_COUNT_; k++) {
        const enum field_id field = shop_own_field(k);
        const char *text = shop_own_text(record, field);

        if (text)
            shop_edits_set(edits, section, field_get(field)->key, text);
    }
    drop_others(edits, section, record);
    return STATUS_OK;
}

enum status shop_targets_keep(const char *path, const struct record *record)
{
    return shop_file_change(path, keep, record);
}

static enum status forget(struct shop_edits *edits, const void *wanted)
{
    char section[SECTION_SIZE];

    if (!section_of(wanted, section))
        return STATUS_ABSENT;
    drop_others(edits, section, NULL);
    drop_sections(edits, section);
    return STATUS_OK;
}

enum status shop_targets_forget(const char *path, const struct record *record)
{
    return shop_file_change(path, forget, record);
}
