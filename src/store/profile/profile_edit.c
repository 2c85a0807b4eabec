/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_edit.h"

#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "store/ini_write.h"

struct editor {
    const struct profile_content *content;
    struct ini_edit *edits;
    size_t count, capacity;
    bool *dropped;                /* by line */
    bool *grown;                  /* by section: keys are added to it */
    bool *shrunk;                 /* by section: lines of it are dropped */
    const struct reading **added; /* have no line yet */
    size_t added_count;
    char section[64]; /* the section added last */
    enum status status;
};

static struct ini_edit *add_edit(struct editor *editor, enum ini_edit_kind kind, size_t at)
{
    struct ini_edit *edits =
        array_grow(editor->edits, editor->count, &editor->capacity, sizeof *edits);

    if (!edits) {
        editor->status = STATUS_NO_MEMORY;
        return NULL;
    }
    editor->edits = edits;
    struct ini_edit *edit = &editor->edits[editor->count];
    *edit = (struct ini_edit){.kind = kind, .at = at, .order = editor->count};
    editor->count++;
    return edit;
}

static void drop_line(struct editor *editor, size_t line)
{
    if (!editor->dropped[line] && add_edit(editor, INI_DROP, line)) {
        editor->dropped[line] = true;
        editor->shrunk[editor->content->text.lines[line].section] = true;
    }
}

static void set_key(struct ini_edit *edit, const struct reading *reading)
{
    struct strbuf name = STRBUF(edit->name);

    reading_key_name(&reading->key, &name);
    edit->value = reading->text;
    edit->long_text = field_get(reading->key.field)->kind == KIND_TEXT;
    edit->spelled = true;
    if (reading->value.state == READING_GONE)
        edit->value = PROFILE_GONE;
    else if (reading_key_is_change(&reading->key) && strcmp(reading->text, PROFILE_GONE) == 0)
        edit->value = PROFILE_GONE_AS_TEXT;
    else
        edit->spelled = false;
}

/* One past the last line of a section's block. */
static size_t block_end(const struct ini_text *text, size_t section)
{
    return section + 1 < text->section_count ? text->sections[section + 1].line : text->line_count;
}

/* Where keys are added to a block: after its last key, before comments on the next block. */
static size_t block_tail(const struct ini_text *text, size_t section)
{
    size_t at = block_end(text, section);

    while (at > text->sections[section].line + 1 && text->lines[at - 1].kind != INI_KEY &&
           text->lines[at - 1].kind != INI_CONTINUATION)
        at--;
    return at;
}

/* The place before a block and its comment, but below a comment at the top of the file. */
static size_t before_block(const struct ini_text *text, size_t section)
{
    const size_t header = text->sections[section].line;
    size_t at = header;

    while (at > 0 && text->lines[at - 1].kind == INI_COMMENT)
        at--;
    return at > 0 ? at : header;
}

static size_t place_section(const struct profile_content *content, const struct reading_key *key)
{
    const struct ini_text *text = &content->text;
    const size_t below = profile_lines_below(content, key);

    if (below > 0)
        return block_tail(text, text->lines[content->lines[below - 1].line].section);
    if (content->line_count > 0)
        return before_block(text, text->lines[content->lines[0].line].section);
    const size_t end = ini_text_section(text, "end");
    return end > 0 ? text->sections[end].line : text->line_count;
}

static void add_reading(struct editor *editor, const struct reading *reading)
{
    const struct ini_text *text = &editor->content->text;
    char memory[sizeof editor->section];
    struct strbuf name = STRBUF(memory);
    struct ini_edit *edit;

    reading_key_section(&reading->key, &name);
    const size_t section = ini_text_section(text, memory);
    if (section > 0) {
        editor->grown[section] = true;
        edit = add_edit(editor, INI_ADD, block_tail(text, section));
    } else {
        const size_t at = place_section(editor->content, &reading->key);

        if (strcmp(editor->section, memory) != 0) {
            edit = add_edit(editor, INI_ADD_SECTION, at);
            if (edit)
                memcpy(edit->name, memory, sizeof edit->name);
            memcpy(editor->section, memory, sizeof editor->section);
        }
        edit = add_edit(editor, INI_ADD_BELOW, at);
    }
    if (edit)
        set_key(edit, reading);
}

static bool same_reading(const struct profile_content *content, size_t i,
                         const struct reading_key *key)
{
    return i < content->line_count && reading_key_compare(&content->lines[i].key, key) == 0;
}

static void remove_reading(struct editor *editor, const struct reading_key *key)
{
    const struct profile_content *content = editor->content;

    for (size_t i = profile_find_line(content, key); same_reading(content, i, key); i++)
        drop_line(editor, content->lines[i].line);
}

/* Writes the new text into the line that counts, and drops the further parts of a long text. */
static void change_reading(struct editor *editor, const struct reading *reading)
{
    const struct profile_content *content = editor->content;
    const size_t first = profile_find_line(content, &reading->key);
    size_t main_line = content->text.line_count;

    for (size_t i = first; same_reading(content, i, &reading->key); i++) {
        if (content->lines[i].chunk == 0)
            main_line = content->lines[i].line;
        else
            drop_line(editor, content->lines[i].line);
    }
    if (main_line == content->text.line_count) {
        editor->added[editor->added_count++] = reading;
        return;
    }
    struct ini_edit *edit = add_edit(editor, INI_REPLACE, main_line);
    if (edit)
        set_key(edit, reading);
}

/* Walks both records, which have the same order. */
static void compare_records(struct editor *editor, const struct record *wanted)
{
    const struct record *old = &editor->content->record;
    size_t o = 0, w = 0;

    while (editor->status == STATUS_OK && (o < old->count || w < wanted->count)) {
        const struct reading *a = o < old->count ? &old->readings[o] : NULL;
        const struct reading *b = w < wanted->count ? &wanted->readings[w] : NULL;
        const int order = !a ? 1 : !b ? -1 : reading_key_compare(&a->key, &b->key);

        if (order < 0)
            remove_reading(editor, &a->key);
        else if (order > 0 || strcmp(a->text, b->text) != 0)
            change_reading(editor, b); /* a new reading may have an empty line already */
        o += order <= 0;
        w += order >= 0;
    }
}

static int compare_written(const void *a, const void *b)
{
    const struct reading *const *x = a, *const *y = b;

    return reading_key_compare_written(&(*x)->key, &(*y)->key);
}

/* In the order of writing, so that each new section is begun once. */
static void add_readings(struct editor *editor)
{
    qsort(editor->added, editor->added_count, sizeof editor->added[0], compare_written);
    for (size_t i = 0; i < editor->added_count && editor->status == STATUS_OK; i++)
        add_reading(editor, editor->added[i]);
}

static void drop_end(struct editor *editor)
{
    const struct ini_text *text = &editor->content->text;

    for (size_t i = 0; i < text->line_count; i++) {
        const struct ini_line *line = &text->lines[i];
        const char *section = text->sections[line->section].name;

        if (line->kind == INI_KEY && line->name && section && strcmp(section, "end") == 0 &&
            (strcmp(line->name, "lines") == 0 || strcmp(line->name, "crc32") == 0))
            drop_line(editor, i);
    }
}

/* True if only blank lines are left under a section line. */
static bool is_emptied(const struct editor *editor, size_t section)
{
    const struct ini_text *text = &editor->content->text;
    const size_t end = block_end(text, section);

    if (!editor->shrunk[section] || editor->grown[section])
        return false;
    for (size_t i = text->sections[section].line + 1; i < end; i++)
        if (text->lines[i].kind != INI_BLANK && text->lines[i].kind != INI_CONTINUATION &&
            !editor->dropped[i])
            return false;
    return true;
}

static void drop_emptied_sections(struct editor *editor)
{
    const struct ini_text *text = &editor->content->text;

    for (size_t section = 1; section < text->section_count; section++) {
        if (!is_emptied(editor, section))
            continue;
        for (size_t i = text->sections[section].line; i < block_end(text, section); i++)
            if (text->lines[i].kind != INI_CONTINUATION)
                drop_line(editor, i);
    }
}

static enum status edit(struct editor *editor, const struct record *wanted, struct bytes *out)
{
    const struct ini_text *text = &editor->content->text;

    editor->dropped = calloc(text->line_count + 1, sizeof editor->dropped[0]);
    editor->grown = calloc(text->section_count, sizeof editor->grown[0]);
    editor->shrunk = calloc(text->section_count, sizeof editor->shrunk[0]);
    editor->added = calloc(wanted->count + 1, sizeof editor->added[0]);
    if (!editor->dropped || !editor->grown || !editor->shrunk || !editor->added)
        return STATUS_NO_MEMORY;
    compare_records(editor, wanted);
    add_readings(editor);
    drop_end(editor);
    drop_emptied_sections(editor);
    if (editor->status != STATUS_OK)
        return editor->status;
    return ini_write(text, editor->edits, editor->count, out);
}

enum status profile_edit(const struct profile_content *content, const struct record *wanted,
                         struct bytes *out)
{
    struct editor editor = {.content = content};
    const char *line_end = ini_text_line_end(&content->text);
    const enum status status = edit(&editor, wanted, out);

    free(editor.edits);
    free(editor.dropped);
    free(editor.grown);
    free(editor.shrunk);
    free(editor.added);
    if (status != STATUS_OK)
        return status;
    ini_write_gap(out, line_end);
    ini_end_add(out, line_end);
    return bytes_status(out);
}
