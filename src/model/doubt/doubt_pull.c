/* SPDX-License-Identifier: MIT */
#include "model/doubt/doubt_pull.h"

#include <stddef.h>
#include <string.h>

#include "model/reading/record_access.h"

/* By kind, and by number of strings where twice as many do not pull twice as much. */
static const struct usual_pull {
    const char *kind;
    int strings;
    double total_n;
} usual_pulls[] = {
    {"steel-string", 6, 833},   /* steel-medium */
    {"steel-string", 12, 1150}, /* steel-twelve-light is 10 % less; heavier ones from memory */
    {"resonator", 6, 833},
    {"archtop", 6, 807},   /* steel-medium */
    {"electric", 6, 531},  /* electric-medium */
    {"electric", 12, 800}, /* from memory */
    {"classical", 6, 397}, /* classical-high */
    {"bass", 4, 811},
    {"mandolin", 8, 836}, /* mandolin-medium */
    {"banjo", 5, 372},
    {"ukulele", 4, 200}, /* of the larger sizes, from memory; ukulele-concert is 147 */
};

/* The row of the kind for the most strings that there are, else its first. */
static const struct usual_pull *find_row(const char *kind, int strings)
{
    const struct usual_pull *found = NULL;

    for (size_t i = 0; i < sizeof usual_pulls / sizeof usual_pulls[0]; i++)
        if (strcmp(usual_pulls[i].kind, kind) == 0 && (!found || usual_pulls[i].strings <= strings))
            found = &usual_pulls[i];
    return found;
}

struct maybe doubt_pull_usual(const struct record *record)
{
    const int strings = record_string_count(record);
    char name[KIND_NAME_SIZE];

    if (!record_kind(record, name) || strings < 1)
        return maybe_absent();
    const struct usual_pull *row = find_row(name, strings);

    return row ? maybe_given(row->total_n * strings / row->strings) : maybe_absent();
}

bool doubt_pull_is_far(const struct record *record, double total_n)
{
    const struct maybe usual = doubt_pull_usual(record);

    return usual.given && total_n > DOUBT_PULL_FAR * usual.value;
}
