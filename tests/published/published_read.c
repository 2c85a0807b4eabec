/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <stdlib.h>
#include <string.h>

#include "near.h"

/* The position of the reader. */
struct reader {
    struct published_case all, now;
    bool in_case;   /* `now` is a case under way */
    bool in_source; /* the line before was part of a source */
    int line;
    struct published_case *cases;
    size_t count;
    const char *trouble;
};

static char *skip_blanks(char *text)
{
    return text + strspn(text, " \t");
}

static void cut_end(char *text)
{
    size_t length = strlen(text);

    while (length > 0 && strchr(" \t\r\n", text[length - 1]) != NULL)
        length--;
    text[length] = '\0';
}

/* Copies what fits entirely; false otherwise. */
static bool copy(char *to, size_t size, const char *from)
{
    if (strlen(from) >= size)
        return false;
    memcpy(to, from, strlen(from) + 1);
    return true;
}

/* NAME VALUE [UNIT], single blanks between. */
static bool read_item(char *text, struct published_item *ret_item)
{
    struct published_item item = {.within = -1};
    char *save = NULL;
    char *name = strtok_r(text, " \t", &save);
    char *value = strtok_r(NULL, " \t", &save);
    char *unit = strtok_r(NULL, " \t", &save);

    if (name == NULL || value == NULL || strtok_r(NULL, " \t", &save) != NULL)
        return false;
    if (!copy(item.name, sizeof item.name, name) || !copy(item.text, sizeof item.text, value) ||
        !copy(item.unit, sizeof item.unit, unit != NULL ? unit : ""))
        return false;
    *ret_item = item;
    return true;
}

/* Cuts the next item off a line of them; NULL at its end. */
static char *next_item(char **rest)
{
    char *item = skip_blanks(*rest);

    if (*item == '\0')
        return NULL;

    char *gap = strstr(item, "  ");

    if (gap != NULL) {
        *gap = '\0';
        *rest = gap + 2;
    } else {
        *rest = item + strlen(item);
    }
    return item;
}

/* A given item replaces one of the same name that an `all` block gave. */
static bool put_given(struct published_case *c, const struct published_item *item)
{
    size_t at = 0;

    while (at < c->given_count && strcmp(c->given[at].name, item->name) != 0)
        at++;
    if (at == PUBLISHED_ITEMS_MAX)
        return false;
    c->given[at] = *item;
    if (at == c->given_count)
        c->given_count++;
    return true;
}

static void take_given(struct reader *reader, struct published_case *c, char *rest)
{
    char *text;

    while ((text = next_item(&rest)) != NULL) {
        struct published_item item;

        if (!read_item(text, &item) || !put_given(c, &item)) {
            reader->trouble = "an item is NAME VALUE [UNIT], two blanks between items";
            return;
        }
    }
}

static void take_expect(struct reader *reader, struct published_case *c, char *rest)
{
    struct published_item item, within;
    char *first = next_item(&rest), *second = next_item(&rest);

    reader->trouble = "expect is NAME VALUE [UNIT]   within TOLERANCE [UNIT], or failure STATUS";
    if (c->expect_count == PUBLISHED_ITEMS_MAX || first == NULL || !read_item(first, &item))
        return;
    if (strcmp(item.name, "failure") != 0) {
        char *end;

        if (second == NULL || !read_item(second, &within) || strcmp(within.name, "within") != 0 ||
            strcmp(within.unit, item.unit) != 0)
            return;
        item.within = strtod(within.text, &end);
        if (*end != '\0' || !(item.within >= 0))
            return;
    }
    c->expect[c->expect_count++] = item;
    reader->trouble = NULL;
}

/* Ends the case under way: it must be whole. */
static void finish_case(struct reader *reader)
{
    if (!reader->in_case)
        return;
    reader->in_case = false;
    if (reader->now.source[0] == '\0')
        reader->trouble = "a case needs a source";
    else if (reader->now.function[0] == '\0')
        reader->trouble = "a case needs a function";
    else if (reader->now.expect_count == 0)
        reader->trouble = "a case needs something to expect";
    else if (reader->count == PUBLISHED_CASES_MAX)
        reader->trouble = "too many cases";
    else
        reader->cases[reader->count++] = reader->now;
}

static void begin_block(struct reader *reader, bool is_case, const char *title)
{
    finish_case(reader);
    if (reader->trouble != NULL)
        return;
    if (!is_case)
        reader->all = (struct published_case){0};
    reader->now = reader->all;
    reader->in_case = is_case;

    struct published_case *c = is_case ? &reader->now : &reader->all;

    c->line = reader->line;
    if (!copy(c->title, sizeof c->title, title))
        reader->trouble = "too long";
}

static void go_on_with_source(struct reader *reader, struct published_case *c, const char *text)
{
    size_t length = strlen(c->source);

    if (!reader->in_source)
        reader->trouble = "a line begins with a blank only to go on with a source";
    else if (length + 1 + strlen(text) >= sizeof c->source)
        reader->trouble = "too long";
    else
        snprintf(c->source + length, sizeof c->source - length, " %s", text);
}

static void take_line(struct reader *reader, char *line)
{
    struct published_case *c = reader->in_case ? &reader->now : &reader->all;
    bool goes_on = line[0] == ' ' || line[0] == '\t';

    cut_end(line);
    if (*skip_blanks(line) == '\0' || line[0] == '#')
        return;
    if (goes_on) {
        go_on_with_source(reader, c, skip_blanks(line));
        return;
    }

    size_t key_length = strcspn(line, " \t");
    char *rest = skip_blanks(line + key_length);

    line[key_length] = '\0';
    reader->in_source = strcmp(line, "source") == 0;
    if (strcmp(line, "case") == 0 || strcmp(line, "all") == 0)
        begin_block(reader, strcmp(line, "case") == 0, rest);
    else if (reader->in_source)
        reader->trouble = copy(c->source, sizeof c->source, rest) ? NULL : "too long";
    else if (strcmp(line, "function") == 0)
        reader->trouble = copy(c->function, sizeof c->function, rest) ? NULL : "too long";
    else if (strcmp(line, "given") == 0)
        take_given(reader, c, rest);
    else if (strcmp(line, "expect") == 0 && reader->in_case)
        take_expect(reader, c, rest);
    else
        reader->trouble = "a line begins with all, case, source, function, given or, in a "
                          "case, expect";
}

bool published_read(FILE *file, struct published_case **ret_cases, size_t *ret_count, char *fault,
                    size_t fault_size)
{
    struct reader *reader = calloc(1, sizeof *reader);
    char line[PUBLISHED_LINE_MAX];
    bool good = false;

    if (reader == NULL)
        return false;
    reader->cases = calloc(PUBLISHED_CASES_MAX, sizeof *reader->cases);
    while (reader->cases != NULL && reader->trouble == NULL &&
           fgets(line, sizeof line, file) != NULL) {
        reader->line++;
        if (strchr(line, '\n') == NULL && !feof(file))
            reader->trouble = "line too long";
        else
            take_line(reader, line);
    }
    if (reader->trouble == NULL)
        finish_case(reader);
    if (reader->trouble == NULL && reader->count == 0)
        reader->trouble = "no case in this table";
    snprintf(fault, fault_size, "line %d: %s", reader->line,
             reader->trouble != NULL ? reader->trouble : "good");
    if (reader->trouble == NULL) {
        *ret_cases = reader->cases;
        *ret_count = reader->count;
        good = true;
    } else {
        free(reader->cases);
    }
    free(reader);
    return good;
}
