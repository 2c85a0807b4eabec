/* SPDX-License-Identifier: MIT */
#include "store/profile/profile_lines.h"

#include <string.h>

struct reporter {
    const struct profile_content *content;
    struct problems *problems;
};

static void report(const struct reporter *reporter, size_t line, enum problem_severity severity,
                   const char *words)
{
    problem_add(reporter->problems, line + 1, severity, "%s", words);
}

static void report_key_line(const struct reporter *reporter, size_t i)
{
    const struct ini_text *text = &reporter->content->text;
    const struct ini_line *line = &text->lines[i];
    const char rest = ini_line_rest(line);

    if (!line->name)
        report(reporter, i, PROBLEM_NOTE,
               "a key cannot have this name; letters, digits, _ and . are accepted");
    if (line->section == 0)
        report(reporter, i, PROBLEM_ERROR, "comes before any [section] and is not read");
    else if (text->lines[text->sections[line->section].line].kind == INI_JUNK)
        report(reporter, i, PROBLEM_ERROR,
               "its section's line is not understood, so it is not read");
    if (line->final_backslash && rest == '\0')
        report(reporter, i, PROBLEM_WARNING,
               "the backslash at the end is taken as part of the value");
    if (rest != '\0' && rest != ';' && rest != '#')
        report(reporter, i, PROBLEM_WARNING, "what follows the closing quote is not read");
}

static bool is_known(const struct ini_line *line)
{
    return line->kind == INI_SECTION && line->name && reading_key_is_section(line->name);
}

static void report_section_line(const struct reporter *reporter, size_t i)
{
    const struct ini_line *line = &reporter->content->text.lines[i];

    if (!is_known(line) && (!line->name || strcmp(line->name, "end") != 0))
        problem_add(reporter->problems, i + 1, PROBLEM_NOTE,
                    "no section %s is known; its lines are kept and not used",
                    shown_text(line->bytes, line->length).text);
}

void profile_report_lines(const struct profile_content *content, struct problems *problems)
{
    const struct reporter reporter = {.content = content, .problems = problems};
    const struct ini_text *text = &content->text;

    for (size_t i = 0; problems && i < text->line_count; i++) {
        const enum ini_kind kind = (enum ini_kind)text->lines[i].kind;

        if (kind == INI_KEY)
            report_key_line(&reporter, i);
        else if (kind == INI_SECTION)
            report_section_line(&reporter, i);
        else if (kind == INI_JUNK)
            report(&reporter, i, PROBLEM_ERROR,
                   "not understood; [section], key = value or ; comment is accepted");
    }
}

bool profile_is_one(const struct profile_content *content)
{
    const struct ini_text *text = &content->text;
    bool nothing = true;

    /* A good [end] alone makes a profile: one whose readings were all removed. */
    if (content->end == INI_END_GOOD)
        return true;
    for (size_t i = 0; i < text->line_count; i++) {
        if (is_known(&text->lines[i]))
            return true;
        nothing =
            nothing && (text->lines[i].kind == INI_BLANK || text->lines[i].kind == INI_COMMENT);
    }
    return nothing;
}
