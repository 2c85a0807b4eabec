/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_find.h"

#include <string.h>

/* Passes have the same names again and again. What they were found to be is remembered, each in the
 * place that its hash gives it, until another takes that. */
enum { NAMES_REMEMBERED = 128 };

struct name_found {
    const char *name; /* owned by the text, one for most of that name; NULL: none */
    enum section section;
    struct reading_key key; /* visit and part are those of another section */
};

struct finder {
    const char *spelled; /* the section in hand: one text for all its lines */
    struct reading_section section;
    bool known; /* it is a section of a profile */
    struct name_found names[NAMES_REMEMBERED];
};

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

static struct name_found *place_of_name(struct finder *finder, const char *name)
{
    const uintptr_t hash = (uintptr_t)name;

    return &finder->names[(hash ^ hash >> 7) % NAMES_REMEMBERED];
}

/* As reading_section_find. Only the sections of visits have the same names again and again. */
static enum status find_key(struct finder *finder, const char *name, struct reading_key *ret_key)
{
    const struct reading_section *section = &finder->section;

    if (section->section < SECTION_VISIT)
        return reading_section_find(section, name, ret_key);
    struct name_found *found = place_of_name(finder, name);
    if (found->name != name || found->section != section->section) {
        const enum status status = reading_section_find(section, name, ret_key);

        if (status == STATUS_OK)
            *found = (struct name_found){name, section->section, *ret_key};
        return status;
    }
    *ret_key = found->key;
    ret_key->visit = (int16_t)section->numbers[0];
    ret_key->part = (int16_t)section->numbers[1];
    return STATUS_OK;
}

/*
 * Finds the reading that a key line belongs to. Only a text continues in name.N, and no text has a
 * number in its own name, so the two cannot be confused.
 */
static bool find_line(struct finder *finder, const char *key, struct profile_line *ret_line)
{
    struct profile_line line = {.order = 0};
    char name[64];
    size_t length;

    if (!finder->known)
        return false;
    if (find_key(finder, key, &line.key) != STATUS_OK) {
        line.chunk = take_chunk(key, &length);
        if (line.chunk == 0 || length >= sizeof name)
            return false;
        memcpy(name, key, length);
        name[length] = '\0';
        if (reading_section_find(&finder->section, name, &line.key) != STATUS_OK ||
            field_get(line.key.field)->kind != KIND_TEXT)
            return false;
    }
    *ret_line = line;
    return true;
}

static bool is_end_key(const char *section, const char *name)
{
    return strcmp(section, "end") == 0 &&
           (strcmp(name, "lines") == 0 || strcmp(name, "crc32") == 0);
}

static void report_unknown(struct problems *problems, size_t number, const char *section,
                           const char *name)
{
    if (!problems || is_end_key(section, name))
        return;
    if (reading_key_is_correction(section, name))
        problem_add(problems, number, PROBLEM_ERROR,
                    "%s is the same in all visits; the line is kept and not used",
                    shown_string(name).text);
    else if (strcmp(section, "end") == 0)
        problem_add(problems, number, PROBLEM_WARNING,
                    "readings in [end] are not used; move it to its section");
    else if (reading_key_is_section(section))
        problem_add(problems, number, PROBLEM_NOTE,
                    "[%s] has no key %s; the line is kept and not used", shown_string(section).text,
                    shown_string(name).text);
}

/* Takes a section in hand. */
static void enter_section(struct finder *finder, const char *section)
{
    if (section == finder->spelled)
        return;
    finder->spelled = section;
    finder->known = reading_section_parse(section, &finder->section);
}

size_t profile_find(const struct ini_text *text, struct problems *problems,
                    struct profile_line *ret_lines)
{
    struct finder finder = {.spelled = NULL};
    size_t count = 0;

    for (uint32_t i = 0; i < text->line_count; i++) {
        const struct ini_line *line = &text->lines[i];
        const char *section = line->value ? ini_line_section(text, line) : NULL;
        struct profile_line *found = &ret_lines[count];

        if (!section)
            continue;
        if (line->zero)
            problem_add(problems, i + 1, PROBLEM_NOTE, "%s means nothing and is left as it is",
                        "%00");
        enter_section(&finder, section);
        if (!find_line(&finder, line->name, found)) {
            report_unknown(problems, i + 1, section, line->name);
            continue;
        }
        found->line = i;
        found->order = reading_key_order(&found->key);
        count++;
    }
    return count;
}

/* --- some readings only --- */

/* Whether two lines are of the same visit, or of the same string; or of neither. */
static bool is_of_same(const struct reading_section *a, const struct reading_section *b)
{
    return a->numbers[0] == b->numbers[0] && a->changed_in == b->changed_in &&
           (a->section == SECTION_STRING) == (b->section == SECTION_STRING);
}

/* An empty reading counts for nothing; what iniparser makes of quotes is not known yet. */
static bool is_surely_something(const struct ini_line *line)
{
    return line->rest_at > line->value_at && !strchr("\"'", line->logical[line->value_at]);
}

/* Whether a line is taken. The first of each visit and string is, whatever it is: it tells that
 * there is such a one. */
static bool is_taken(struct finder *finder, const char *name, bool first, const bool *fields,
                     const bool *sections)
{
    struct profile_line line;

    return finder->known && (first || sections[finder->section.section]) &&
           find_line(finder, name, &line) && (first || fields[line.key.field]);
}

void profile_find_wanted(struct ini_text *text, const bool wanted[FIELD_COUNT_])
{
    bool sections[SECTION_COUNT_] = {false};
    struct finder finder = {.spelled = NULL};
    struct reading_section last = {.section = SECTION_COUNT_};

    for (int id = 0; id < FIELD_COUNT_; id++)
        sections[field_get((enum field_id)id)->section] |= wanted[id];
    for (size_t i = 0; i < text->line_count; i++) {
        struct ini_line *line = &text->lines[i];
        const char *section = ini_line_section(text, line);

        if (!section)
            continue;
        enter_section(&finder, section);
        line->skipped =
            !is_taken(&finder, line->name, !is_of_same(&last, &finder.section), wanted, sections);
        if (!line->skipped && is_surely_something(line))
            last = finder.section;
    }
}
