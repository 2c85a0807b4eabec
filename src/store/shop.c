/* SPDX-License-Identifier: MIT */
#include "store/shop.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "store/file_read.h"
#include "store/ini_read.h"
#include "store/ini_write.h"
#include "store/paths.h"
#include "store/safefile.h"

struct unit_word {
    const char *word;
    enum unit unit;
};

/* A setting: its key and its accepted values. */
struct setting {
    enum field_measure measure;
    const char *key;
    struct unit_word words[3];
};

static const struct setting settings[] = {
    {MEASURE_FEELER, "feeler", {{"th", UNIT_TH}, {"100ths", UNIT_100THS}, {"mm", UNIT_MM}}},
    {MEASURE_RULE, "rule", {{"64ths", UNIT_64THS}, {"th", UNIT_TH}, {"mm", UNIT_MM}}},
    {MEASURE_DEPTH, "depth", {{"mm", UNIT_MM}, {"64ths", UNIT_64THS}, {"th", UNIT_TH}}},
    {MEASURE_GAUGE, "gauge", {{"th", UNIT_TH}, {"mm", UNIT_MM}}},
    {MEASURE_SMALL, "small", {{"mm", UNIT_MM}, {"in", UNIT_IN}}},
    {MEASURE_LONG, "long", {{"in", UNIT_IN}, {"mm", UNIT_MM}}},
    {MEASURE_TEMPERATURE, "temperature", {{"C", UNIT_C}, {"F", UNIT_F}}},
};

enum { SETTING_COUNT = sizeof settings / sizeof settings[0] };
enum { WORDS_MAX = sizeof settings[0].words / sizeof settings[0].words[0] };

struct shop_file {
    struct ini_text text;
    struct ini_entries entries;
};

enum status shop_path(char **ret_path)
{
    char *folder;
    const enum status status = paths_config_folder(&folder);

    if (status != STATUS_OK)
        return status;
    *ret_path = paths_join(folder, "shop.ini");
    free(folder);
    return *ret_path ? STATUS_OK : STATUS_NO_MEMORY;
}

static void shop_file_done(struct shop_file *file)
{
    const int kept_errno = errno;

    ini_entries_done(&file->entries);
    ini_text_done(&file->text);
    errno = kept_errno;
}

/* A missing file counts as an empty one. */
static enum status load_file(const char *path, struct problems *problems,
                             struct shop_file *ret_file)
{
    struct shop_file file = {0};
    struct ini_fault fault = {0};
    struct bytes bytes;
    enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status == STATUS_NOT_FOUND) {
        bytes_init(&bytes);
        status = STATUS_OK;
    }
    if (status != STATUS_OK)
        return status;
    status = ini_text_parse(&bytes, &file.text, &fault);
    if (fault.words)
        problem_add(problems, fault.line, PROBLEM_ERROR, "%s", fault.words);
    if (status == STATUS_OK)
        status = ini_read(&file.text, &file.entries);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        shop_file_done(&file);
    else
        *ret_file = file;
    return status;
}

/* The last entry of a key in [shop], which is the one that counts; NULL if there is none. */
static const struct ini_entry *find_entry(const struct shop_file *file, const char *key)
{
    for (size_t i = file->entries.count; i-- > 0;) {
        const struct ini_entry *entry = &file->entries.items[i];

        if (strcmp(entry->section, "shop") == 0 && strcmp(entry->name, key) == 0)
            return entry;
    }
    return NULL;
}

static const char *word_for(const struct setting *setting, enum unit unit)
{
    for (int i = 0; i < WORDS_MAX && setting->words[i].word; i++)
        if (setting->words[i].unit == unit)
            return setting->words[i].word;
    return NULL;
}

static void refuse_value(struct problems *problems, const struct ini_entry *entry,
                         const struct unit_word *words, int count)
{
    char memory[64];
    struct strbuf accepted = STRBUF(memory);

    for (int i = 0; i < count && words[i].word; i++)
        strbuf_addf(&accepted, "%s%s", i ? ", " : "", words[i].word);
    problem_add(problems, entry->line + 1, PROBLEM_ERROR,
                "%s \"%s\" is not understood; one of %s is accepted", entry->name,
                shown_string(entry->value).text, memory);
}

static void take_setting(const struct shop_file *file, const struct setting *setting,
                         struct problems *problems, struct shop_units *units)
{
    const struct ini_entry *entry = find_entry(file, setting->key);

    if (!entry)
        return;
    for (int i = 0; i < WORDS_MAX && setting->words[i].word; i++)
        if (strcmp(entry->value, setting->words[i].word) == 0) {
            units->bare[setting->measure] = setting->words[i].unit;
            return;
        }
    refuse_value(problems, entry, setting->words, WORDS_MAX);
}

static struct shop_units take_start(const struct shop_file *file, struct problems *problems)
{
    static const struct unit_word words[] = {{"inch", UNIT_IN}, {"metric", UNIT_MM}};
    const struct ini_entry *entry = find_entry(file, "units");

    if (entry && strcmp(entry->value, "metric") == 0)
        return shop_units_metric();
    if (entry && strcmp(entry->value, "inch") != 0)
        refuse_value(problems, entry, words, 2);
    return shop_units_inch();
}

static bool is_key(const char *name)
{
    static const char *const letterhead[] = {"name", "address", "contact", "paper"};

    for (size_t i = 0; i < sizeof letterhead / sizeof letterhead[0]; i++)
        if (strcmp(letterhead[i], name) == 0)
            return true;
    for (int i = 0; i < SETTING_COUNT; i++)
        if (strcmp(settings[i].key, name) == 0)
            return true;
    return strcmp(name, "units") == 0;
}

static void report_unknown(const struct shop_file *file, struct problems *problems)
{
    for (size_t i = 0; i < file->text.line_count; i++)
        if (file->text.lines[i].kind == INI_JUNK)
            problem_add(problems, i + 1, PROBLEM_ERROR,
                        "not understood; [section], key = value or ; comment is accepted");
    for (size_t i = 0; i < file->entries.count; i++) {
        const struct ini_entry *entry = &file->entries.items[i];

        if (strcmp(entry->section, "shop") != 0 || !is_key(entry->name))
            problem_add(
                problems, entry->line + 1, PROBLEM_NOTE,
                "%s in [%s] is not known and not used; in [shop], units, feeler, rule, depth, "
                "gauge, small, long, temperature are accepted",
                shown_string(entry->name).text, shown_string(entry->section).text);
    }
}

static enum shop_paper take_paper(const struct shop_file *file, struct problems *problems)
{
    static const struct unit_word words[] = {{.word = "a4"}, {.word = "letter"}};
    const struct ini_entry *entry = find_entry(file, "paper");

    if (!entry)
        return SHOP_PAPER_UNSAID;
    if (strcmp(entry->value, "a4") == 0)
        return SHOP_PAPER_A4;
    if (strcmp(entry->value, "letter") == 0)
        return SHOP_PAPER_LETTER;
    refuse_value(problems, entry, words, 2);
    return SHOP_PAPER_UNSAID;
}

static struct shop_units take_units(const struct shop_file *file, struct problems *problems)
{
    struct shop_units units = take_start(file, problems);

    for (int i = 0; i < SETTING_COUNT; i++)
        take_setting(file, &settings[i], problems, &units);
    return units;
}

enum status shop_read(const char *path, struct problems *problems, struct shop_units *ret_units)
{
    struct shop_file file;
    const enum status status = load_file(path, problems, &file);

    if (status != STATUS_OK)
        return status;
    report_unknown(&file, problems);
    (void)take_paper(&file, problems);
    *ret_units = take_units(&file, problems);
    shop_file_done(&file);
    return STATUS_OK;
}

static void take_text(const struct shop_file *file, const char *key, char *out, size_t size)
{
    const struct ini_entry *entry = find_entry(file, key);
    struct strbuf text = strbuf_over(out, size);

    if (entry)
        strbuf_add(&text, entry->value);
}

enum status shop_read_letterhead(const char *path, struct shop_letterhead *ret_letterhead)
{
    struct shop_letterhead head = {.paper = SHOP_PAPER_UNSAID};
    struct shop_file file;
    const enum status status = load_file(path, NULL, &file);

    if (status != STATUS_OK)
        return status;
    take_text(&file, "name", head.name, sizeof head.name);
    take_text(&file, "address", head.address, sizeof head.address);
    take_text(&file, "contact", head.contact, sizeof head.contact);
    head.paper = take_paper(&file, NULL);
    shop_file_done(&file);
    *ret_letterhead = head;
    return STATUS_OK;
}

static int differences(const struct shop_units *a, const struct shop_units *b)
{
    int count = 0;

    for (int i = 0; i < SETTING_COUNT; i++)
        count += a->bare[settings[i].measure] != b->bare[settings[i].measure];
    return count;
}

struct shop_editor {
    const struct shop_file *file;
    struct ini_edit edits[SETTING_COUNT + 2]; /* the settings, `units`, and the section line */
    size_t count;
    bool in_section;
    size_t at;
};

static void add_edit(struct shop_editor *editor, enum ini_edit_kind kind, size_t at,
                     const char *name, const char *value)
{
    struct ini_edit *edit = &editor->edits[editor->count];
    struct strbuf text = STRBUF(edit->name);

    edit->kind = kind;
    edit->at = at;
    edit->order = editor->count++;
    edit->value = value;
    strbuf_add(&text, name);
}

static void set_key(struct shop_editor *editor, const char *key, const char *value)
{
    const struct ini_entry *entry = find_entry(editor->file, key);

    if (entry && strcmp(entry->value, value) == 0)
        return;
    if (entry)
        add_edit(editor, INI_REPLACE, entry->line, key, value);
    else
        add_edit(editor, editor->in_section ? INI_ADD : INI_ADD_BELOW, editor->at, key, value);
}

/* New keys go right below the [shop] line, or below a new one at the end. */
static void find_place(struct shop_editor *editor)
{
    const struct ini_text *text = &editor->file->text;
    const size_t section = ini_text_section(text, "shop");

    editor->in_section = section > 0;
    editor->at = section > 0 ? text->sections[section].line + 1 : text->line_count;
    if (!editor->in_section)
        add_edit(editor, INI_ADD_SECTION, editor->at, "shop", NULL);
}

static enum status edit_file(const struct shop_file *file, const struct shop_units *units,
                             struct bytes *out)
{
    const struct shop_units inch = shop_units_inch(), metric = shop_units_metric();
    const bool is_metric = differences(units, &metric) < differences(units, &inch);
    const struct shop_units *start = is_metric ? &metric : &inch;
    struct shop_editor editor = {.file = file};

    find_place(&editor);
    set_key(&editor, "units", is_metric ? "metric" : "inch");
    for (int i = 0; i < SETTING_COUNT; i++) {
        const enum field_measure measure = settings[i].measure;
        const char *word = word_for(&settings[i], units->bare[measure]);

        if (word &&
            (find_entry(file, settings[i].key) || start->bare[measure] != units->bare[measure]))
            set_key(&editor, settings[i].key, word);
    }
    return ini_write(&file->text, editor.edits, editor.count, out);
}

static enum status write_bytes(const char *path, const struct bytes *bytes)
{
    const enum status status = paths_make_folder_above(path);

    if (status != STATUS_OK)
        return status;
    return safefile_put(path, SAFEFILE_REPLACE, NULL, bytes->data, bytes->length, NULL);
}

enum status shop_write(const char *path, const struct shop_units *units)
{
    struct shop_file file;
    struct bytes bytes;
    enum status status = load_file(path, NULL, &file);

    if (status != STATUS_OK)
        return status;
    bytes_init(&bytes);
    status = edit_file(&file, units, &bytes);
    if (status == STATUS_OK)
        status = write_bytes(path, &bytes);
    bytes_done(&bytes);
    shop_file_done(&file);
    return status;
}
