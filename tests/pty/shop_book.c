/* SPDX-License-Identifier: MIT */
#include "shop_book.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

enum { LINE_LENGTH = 1000, SECTION_LENGTH = 60 };

/* ".006 in", "13/64 in", "0.15 mm". */
static double mm_of(const char *text)
{
    char *end;
    double value = strtod(text, &end);

    if (*end == '/')
        value /= strtod(end + 1, &end);
    return strcmp(end, " mm") == 0 ? value : value * 25.4;
}

static void take_text(char out[BOOK_TEXT], const char *value)
{
    const size_t length = strlen(value);
    const bool quoted = length >= 2 && value[0] == '"';

    snprintf(out, BOOK_TEXT, "%.*s", (int)(quoted ? length - 2 : length), value + quoted);
}

static void take_instrument(struct book_item *item, const char *key, const char *value)
{
    const struct {
        const char *key;
        char *out;
    } texts[] = {{"name", item->name},
                 {"kind", item->kind},
                 {"owner", item->owner},
                 {"maker", item->maker},
                 {"serial", item->serial}};

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        if (strcmp(key, texts[i].key) == 0)
            take_text(texts[i].out, value);
}

static void take_visit(struct book_visit *visit, const char *key, const char *value)
{
    char *const out = strcmp(key, "date") == 0          ? visit->date
                      : strcmp(key, "promised") == 0    ? visit->promised
                      : strcmp(key, "handed_over") == 0 ? visit->handed_over
                                                        : NULL;

    if (out)
        snprintf(out, sizeof visit->date, "%.11s", value);
}

static void take_pass(struct book_item *item, int visit, const char *key, const char *value)
{
    if (strcmp(key, "relief") == 0)
        item->visit[visit - 1].relief_mm = mm_of(value);
    if (strcmp(key, "exposure_bass") == 0)
        item->exposure_mm[0] = mm_of(value);
    if (strcmp(key, "exposure_treble") == 0)
        item->exposure_mm[1] = mm_of(value);
}

static void take(struct book_item *item, const char *section, const char *key, const char *value)
{
    int visit = 0, pass = 0, length = 0;

    if (strcmp(section, "instrument") == 0)
        take_instrument(item, key, value);
    if (strcmp(section, "targets") == 0 && strcmp(key, "relief") == 0)
        item->target_relief_mm = mm_of(value);
    if (strcmp(section, "bridge") == 0 && strcmp(key, "exposure_min") == 0)
        item->exposure_min_mm = mm_of(value);
    if (sscanf(section, "visit.%d%n", &visit, &length) != 1)
        return;
    assert_in_range(visit, 1, BOOK_VISITS_MAX);
    item->visits = visit > item->visits ? visit : item->visits;
    if (section[length] == '\0')
        take_visit(&item->visit[visit - 1], key, value);
    else if (sscanf(section + length, ".pass.%d", &pass) == 1)
        take_pass(item, visit, key, value);
}

static void read_one(const char *path, struct book_item *item)
{
    char line[LINE_LENGTH], section[SECTION_LENGTH] = "";
    FILE *file = fopen(path, "r");

    assert_non_null(file);
    item->exposure_mm[0] = item->exposure_mm[1] = item->target_relief_mm = -1;
    for (int v = 0; v < BOOK_VISITS_MAX; v++)
        item->visit[v].relief_mm = -1;
    while (fgets(line, sizeof line, file)) {
        char *value = strstr(line, " = ");

        line[strcspn(line, "\r\n")] = '\0';
        if (line[0] == '[')
            snprintf(section, sizeof section, "%.*s", (int)strcspn(line + 1, "]"), line + 1);
        if (!value)
            continue;
        *value = '\0';
        take(item, section, line, value + strlen(" = "));
    }
    fclose(file);
}

void book_read(const char *folder, struct book *ret_book)
{
    enum { MOST = 20000 };
    DIR *all = opendir(folder);
    struct book book = {.items = calloc(MOST, sizeof *book.items)};
    char path[1000];

    assert_non_null(all);
    assert_non_null(book.items);
    for (struct dirent *entry; (entry = readdir(all)) != NULL;) {
        const char *end = strrchr(entry->d_name, '.');

        if (!end || strcmp(end, ".ini") != 0)
            continue;
        assert_true(book.count < MOST);
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        take_text(book.items[book.count].file, entry->d_name);
        read_one(path, &book.items[book.count++]);
    }
    closedir(all);
    *ret_book = book;
}

void book_done(struct book *book)
{
    free(book->items);
    *book = (struct book){.items = NULL};
}

bool book_in_house(const struct book_item *item)
{
    return item->visits > 0 && item->visit[item->visits - 1].handed_over[0] == '\0';
}

const struct book_item *book_find(const struct book *book, const char *name)
{
    for (size_t i = 0; i < book->count; i++)
        if (strcmp(book->items[i].name, name) == 0)
            return &book->items[i];
    return NULL;
}
