/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "published.h"

/*
 * Runs tables of published numbers and prints what they came to: run_published TABLE...
 * run_published --summary FILE TABLE... writes a summary in Markdown to FILE instead.
 */

static const struct published_function *const tables[] = {published_strings, published_wood, NULL};

static void run_case(void **state)
{
    published_check((struct published_case *)*state, tables);
}

static int run_cases(struct published_case *cases, size_t count)
{
    struct CMUnitTest *tests = calloc(count, sizeof *tests);

    if (tests == NULL)
        return 2;
    for (size_t i = 0; i < count; i++)
        tests[i] = (struct CMUnitTest){cases[i].title, run_case, NULL, NULL, &cases[i]};

    int failed = _cmocka_run_group_tests("published", tests, count, NULL, NULL);

    free(tests);
    return failed != 0 ? 1 : 0;
}

/* Adds a table's cases to those read before; false with a word on stderr. */
static bool add_table(const char *path, struct published_case **cases, size_t *count)
{
    struct published_case *more = NULL, *all;
    size_t more_count;
    char fault[200];
    FILE *file = fopen(path, "r");

    if (file == NULL) {
        perror(path);
        return false;
    }

    bool good = published_read(file, &more, &more_count, fault, sizeof fault);

    fclose(file);
    if (!good) {
        fprintf(stderr, "%s: %s\n", path, fault);
        return false;
    }
    all = realloc(*cases, (*count + more_count) * sizeof *all);
    if (all != NULL) {
        memcpy(all + *count, more, more_count * sizeof *all);
        *cases = all;
        *count += more_count;
    }
    free(more);
    return all != NULL;
}

/* Writes the summary; false with a word on stderr. */
static bool write_summary(const char *path, const struct published_case *cases, size_t count)
{
    FILE *out = fopen(path, "w");

    if (out != NULL)
        published_print_summary(out, cases, count);
    if (out == NULL || fclose(out) != 0) {
        perror(path);
        return false;
    }
    return true;
}

int main(int argc, char **argv)
{
    bool summary = argc > 1 && strcmp(argv[1], "--summary") == 0;
    int first = summary ? 3 : 1;
    struct published_case *cases = NULL;
    size_t count = 0;

    if (argc <= first) {
        fprintf(stderr, "usage: run_published [--summary FILE] TABLE...\n");
        return 2;
    }
    for (int i = first; i < argc; i++) {
        if (!add_table(argv[i], &cases, &count)) {
            free(cases);
            return 2;
        }
    }

    int status = run_cases(cases, count);

    if (!summary)
        published_print(stdout, cases, count);
    else if (!write_summary(argv[2], cases, count))
        status = 2;
    free(cases);
    return status;
}
