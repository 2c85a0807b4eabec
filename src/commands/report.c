/* SPDX-License-Identifier: MIT */
#include "commands/report.h"

#include <errno.h>
#include <stdint.h>
#include <string.h>

#include "base/utf8.h"

static const char *severity_word(enum problem_severity severity)
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

void report_begin(const char *path, FILE *out)
{
    size_t left = strlen(path);

    fputs("sillet: ", out);
    /* A shown text is cut if it is long, so the name goes out one character at a time. */
    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(path, left, &rune, NULL);

        fputs(shown_text(path, length).text, out);
        path += length;
        left -= length;
    }
    fputc(':', out);
}

void report_problems(const char *path, const struct problems *problems, enum problem_severity least,
                     FILE *out)
{
    for (size_t i = 0; i < problems->count; i++) {
        const struct problem *problem = &problems->items[i];

        if (problem->severity < least)
            continue;
        report_begin(path, out);
        if (problem->line > 0)
            fprintf(out, "%d:", problem->line);
        fprintf(out, " %s%s\n", severity_word(problem->severity), problem->words);
    }
    if (problems->more > 0) {
        report_begin(path, out);
        fprintf(out, " and %zu more\n", problems->more);
    }
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
    case STATUS_NOWHERE:
        strbuf_add(out, "a link that leads nowhere; repair or remove it");
        return;
    default:
        strbuf_add(out, status_text(status));
    }
}

void report_failure(const char *path, enum status status, int error, FILE *out)
{
    char memory[200];
    struct strbuf words = STRBUF(memory);

    report_words(status, error, &words);
    report_begin(path, out);
    fprintf(out, " %s\n", memory);
}

enum exit_code report_printed(enum exit_code code)
{
    if (fflush(stdout) == 0 && !ferror(stdout))
        return code;
    report_failure("standard output", STATUS_IO, errno, stderr);
    return EXIT_CANNOT;
}
