/* SPDX-License-Identifier: MIT */
#include "cli/report.h"

#include <string.h>

static const char *severity_word(enum profile_severity severity)
{
    switch (severity) {
    case PROBLEM_NOTE:
        return "note: ";
    case PROBLEM_WARNING:
        return "warning: ";
    case PROBLEM_ERROR:
        break;
    }
    return "";
}

void report_problems(const char *path, const struct profile_problems *problems,
                     enum profile_severity least, FILE *out)
{
    const struct shown name = shown_string(path);

    for (size_t i = 0; i < problems->count; i++) {
        const struct profile_problem *problem = &problems->items[i];

        if (problem->severity < least)
            continue;
        fprintf(out, "sillet: %s:", name.text);
        if (problem->line > 0)
            fprintf(out, "%d:", problem->line);
        fprintf(out, " %s%s\n", severity_word(problem->severity), problem->words);
    }
    if (problems->more > 0)
        fprintf(out, "sillet: %s: and %zu more\n", name.text, problems->more);
}

void report_words(enum status status, int error, struct strbuf *out)
{
    switch (status) {
    case STATUS_IO:
        strbuf_add(out, error ? strerror(error) : status_text(status));
        return;
    case STATUS_NOT_FOUND:
        strbuf_add(out, "there is no such file or folder");
        return;
    default:
        strbuf_add(out, status_text(status));
    }
}

void report_failure(const char *path, enum status status, int error, FILE *out)
{
    const struct shown name = shown_string(path);
    char memory[200];
    struct strbuf words = STRBUF(memory);

    report_words(status, error, &words);
    fprintf(out, "sillet: %s: %s\n", name.text, memory);
}
