/* SPDX-License-Identifier: MIT */
#include "old_files.h"

#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

static bool ends_in(const char *text, const char *end)
{
    const size_t length = strlen(text), wanted = strlen(end);

    return length >= wanted && strcmp(text + length - wanted, end) == 0;
}

static void add(const char *path, struct old_files *files)
{
    struct stat facts;

    assert_int_equal(stat(path, &facts), 0);
    if (S_ISDIR(facts.st_mode)) {
        old_files_find(path, files);
    } else if (ends_in(path, ".ini")) {
        assert_true(files->count < OLD_FILES_MAX);
        snprintf(files->path[files->count++], sizeof files->path[0], "%s", path);
    }
}

void old_files_find(const char *folder, struct old_files *files)
{
    DIR *stream = opendir(folder);
    struct dirent *entry;

    if (!stream)
        fail_msg("no folder %s", folder);
    while ((entry = readdir(stream)) != NULL) {
        char path[512];

        if (entry->d_name[0] == '.')
            continue;
        assert_in_range(snprintf(path, sizeof path, "%s/%s", folder, entry->d_name), 1,
                        sizeof path - 1);
        add(path, files);
    }
    closedir(stream);
}

/* Up to [end], without the blank lines before it. */
static size_t body_length(const char *text)
{
    const char *end = strstr(text, "\n[end]");
    size_t length = end ? (size_t)(end - text) : strlen(text);

    while (length > 0 && text[length - 1] == '\n')
        length--;
    return length;
}

/* Whole lines, with a last one that has its end. */
static char *body_of(const char *text, bool as_format_1)
{
    const size_t length = body_length(text);
    char *body = malloc(length + 2);

    assert_non_null(body);
    memcpy(body, text, length);
    memcpy(body + length, "\n", 2);
    char *format = strstr(body, "\nformat = 2\n");
    if (format && as_format_1)
        format[strlen("\nformat = ")] = '1';
    return body;
}

/* What two texts differ in, in whole lines: both end where they differ no longer. */
static void cut_to_difference(char **a, char **b)
{
    char *from_a = *a, *from_b = *b;

    for (char *p = *a, *q = *b; *p && *p == *q; p++, q++)
        if (*p == '\n') {
            from_a = p + 1;
            from_b = q + 1;
        }
    char *to_a = from_a + strlen(from_a), *to_b = from_b + strlen(from_b);
    for (char *p = to_a, *q = to_b; p > from_a && q > from_b && p[-1] == q[-1];) {
        p--, q--;
        if ((p == from_a || p[-1] == '\n') && (q == from_b || q[-1] == '\n')) {
            to_a = p;
            to_b = q;
        }
    }
    *to_a = *to_b = '\0';
    *a = from_a;
    *b = from_b;
}

/* Whether every line is the wanted one, once, or goes with it. */
static bool is_the_edit(const char *text, const char *line)
{
    int wanted = 0;

    for (const char *end; *text; text = end + (*end == '\n')) {
        end = text + strcspn(text, "\n");
        const size_t length = (size_t)(end - text);

        if (length == strlen(line) && memcmp(text, line, length) == 0)
            wanted++;
        else if (length > 0 && (text[0] != '[' || !strstr(text, "string.")))
            return false;
    }
    return wanted == 1;
}

bool old_files_is_edited(const char *before, const char *after, const char *line)
{
    char *was = body_of(before, false), *is = body_of(after, strstr(before, "\nformat = 1\n"));
    char *was_part = was, *is_part = is;
    const size_t key = strcspn(line, "=") + 1;

    cut_to_difference(&was_part, &is_part);
    const size_t lines = strcspn(was_part, "\n");
    const bool replaced = strncmp(was_part, line, key) == 0 && was_part[lines + 1] == '\0';
    const bool edited = (!was_part[0] || replaced) && is_the_edit(is_part, line);
    free(was);
    free(is);
    return edited;
}

void old_files_check(const char *path, char *before, char *after)
{
    assert_non_null(after);
    if (!old_files_is_edited(before, after, OLD_FILES_EDIT))
        fail_msg("%s is changed elsewhere too:\n%s", path, after);
    free(after);
    free(before);
}
