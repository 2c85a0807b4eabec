/* SPDX-License-Identifier: MIT */
#include "store/shop.h"

#include <stdlib.h>
#include <string.h>

#include "store/paths.h"
#include "store/shop_file.h"
#include "store/shop_prices.h"
#include "store/shop_targets.h"

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

static const char *word_for(const struct setting *setting, enum unit unit)
{
    for (int i = 0; i < WORDS_MAX && setting->words[i].word; i++)
        if (setting->words[i].unit == unit)
            return setting->words[i].word;
    return NULL;
}

static void refuse_value(struct problems *problems, const struct shop_file *file,
                         const struct ini_line *line, const struct unit_word *words, int count)
{
    char memory[64];
    struct strbuf accepted = STRBUF(memory);

    for (int i = 0; i < count && words[i].word; i++)
        strbuf_addf(&accepted, "%s%s", i ? ", " : "", words[i].word);
    problem_add(problems, ini_line_number(&file->text, line), PROBLEM_ERROR,
                "%s \"%s\" is not understood; one of %s is accepted", line->name,
                shown_string(line->value).text, memory);
}

static void take_setting(const struct shop_file *file, const struct setting *setting,
                         struct problems *problems, struct shop_units *units)
{
    const struct ini_line *line = shop_file_find(file, "shop", setting->key);

    if (!line)
        return;
    for (int i = 0; i < WORDS_MAX && setting->words[i].word; i++)
        if (strcmp(line->value, setting->words[i].word) == 0) {
            units->bare[setting->measure] = setting->words[i].unit;
            return;
        }
    refuse_value(problems, file, line, setting->words, WORDS_MAX);
}

static struct shop_units take_start(const struct shop_file *file, struct problems *problems)
{
    static const struct unit_word words[] = {{"inch", UNIT_IN}, {"metric", UNIT_MM}};
    const struct ini_line *line = shop_file_find(file, "shop", "units");

    if (line && strcmp(line->value, "metric") == 0)
        return shop_units_metric();
    if (line && strcmp(line->value, "inch") != 0)
        refuse_value(problems, file, line, words, 2);
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
    for (size_t i = 0; i < file->text.line_count; i++) {
        const struct ini_line *line = &file->text.lines[i];
        const char *section = ini_line_section(&file->text, line);

        if (!section || shop_targets_check(&file->text, line, problems) ||
            shop_prices_check(&file->text, line, problems))
            continue;
        if (strcmp(section, "shop") != 0 || !is_key(line->name))
            problem_add(
                problems, i + 1, PROBLEM_NOTE,
                "%s in [%s] is not known and not used; in [shop], units, feeler, rule, depth, "
                "gauge, small, long, temperature are accepted",
                shown_string(line->name).text, shown_string(section).text);
    }
}

static enum shop_paper take_paper(const struct shop_file *file, struct problems *problems)
{
    static const struct unit_word words[] = {{.word = "a4"}, {.word = "letter"}};
    const struct ini_line *line = shop_file_find(file, "shop", "paper");

    if (!line)
        return SHOP_PAPER_UNSAID;
    if (strcmp(line->value, "a4") == 0)
        return SHOP_PAPER_A4;
    if (strcmp(line->value, "letter") == 0)
        return SHOP_PAPER_LETTER;
    refuse_value(problems, file, line, words, 2);
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
    const enum status status = shop_file_load(path, problems, &file);

    if (status != STATUS_OK)
        return status;
    report_unknown(&file, problems);
    (void)take_paper(&file, problems);
    *ret_units = take_units(&file, problems);
    shop_file_done(&file);
    return STATUS_OK;
}

enum status shop_says_units(const char *path, bool *ret_says)
{
    struct shop_file file;
    const enum status status = shop_file_load(path, NULL, &file);

    if (status != STATUS_OK)
        return status;
    *ret_says = shop_file_find(&file, "shop", "units") != NULL;
    for (int i = 0; i < SETTING_COUNT; i++)
        *ret_says = *ret_says || shop_file_find(&file, "shop", settings[i].key) != NULL;
    shop_file_done(&file);
    return STATUS_OK;
}

static void take_text(const struct shop_file *file, const char *key, char *out, size_t size)
{
    const struct ini_line *line = shop_file_find(file, "shop", key);
    struct strbuf text = strbuf_over(out, size);

    if (line)
        strbuf_add(&text, line->value);
}

enum status shop_read_letterhead(const char *path, struct shop_letterhead *ret_letterhead)
{
    struct shop_letterhead head = {.paper = SHOP_PAPER_UNSAID};
    struct shop_file file;
    const enum status status = shop_file_load(path, NULL, &file);

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

static enum status set_units(struct shop_edits *edits, const void *wanted)
{
    const struct shop_units *units = wanted, inch = shop_units_inch(), metric = shop_units_metric();
    const bool is_metric = differences(units, &metric) < differences(units, &inch);
    const struct shop_units *start = is_metric ? &metric : &inch;
    const struct shop_file *file = shop_edits_file(edits);

    shop_edits_set(edits, "shop", "units", is_metric ? "metric" : "inch");
    for (int i = 0; i < SETTING_COUNT; i++) {
        const enum field_measure measure = settings[i].measure;
        const char *word = word_for(&settings[i], units->bare[measure]);

        if (word && (shop_file_find(file, "shop", settings[i].key) ||
                     start->bare[measure] != units->bare[measure]))
            shop_edits_set(edits, "shop", settings[i].key, word);
    }
    return STATUS_OK;
}

enum status shop_write(const char *path, const struct shop_units *units)
{
    return shop_file_change(path, set_units, units);
}
