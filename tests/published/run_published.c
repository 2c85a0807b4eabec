/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "near.h"
#include "published.h"

/* Runs one table of published numbers: run_published TABLE. */

static const struct published_function *const tables[] = {published_strings, published_wood, NULL};

static void run_case(void **state)
{
    published_check((struct published_case *)*state, tables);
}

static int run_cases(const char *name, struct published_case *cases, size_t count)
{
    struct CMUnitTest *tests = calloc(count, sizeof *tests);

    if (tests == NULL)
        return 2;
    for (size_t i = 0; i < count; i++)
        tests[i] = (struct CMUnitTest){cases[i].title, run_case, NULL, NULL, &cases[i]};

    int failed = _cmocka_run_group_tests(name, tests, count, NULL, NULL);

    free(tests);
    return failed != 0 ? 1 : 0;
}

int main(int argc, char **argv)
{
    struct published_case *cases;
    size_t count;
    char fault[200];

    if (argc != 2) {
        fprintf(stderr, "usage: run_published TABLE\n");
        return 2;
    }

    FILE *file = fopen(argv[1], "r");

    if (file == NULL) {
        perror(argv[1]);
        return 2;
    }

    bool good = published_read(file, &cases, &count, fault, sizeof fault);

    fclose(file);
    if (!good) {
        fprintf(stderr, "%s: %s\n", argv[1], fault);
        return 2;
    }

    int status = run_cases(argv[1], cases, count);

    free(cases);
    return status;
}
