/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The position of the reader. */
struct reader {
    struct published_case all, now;
    bool in_case; /* `now` is a case under way */
    char *text;   /* the text that a line beginning with a blank goes on with, or NULL */
    size_t text_size;
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

/* NAME VALUE [UNIT], single blanks between; NAME [UNIT] for a column. */
static bool read_item(char *text, bool is_column, struct published_item *ret_item)
{
    struct published_item item = {.within = -1, .found = (double)NAN};
    char *save = NULL;
    char *name = strtok_r(text, " \t", &save);
    char *value = is_column ? name : strtok_r(NULL, " \t", &save);
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

        if (!read_item(text, false, &item) || !put_given(c, &item)) {
            reader->trouble = "an item is NAME VALUE [UNIT], two blanks between items";
            return;
        }
    }
}

/* The tolerance of an expected item: within NUMBER, in the same unit. */
static bool read_within(char *text, struct published_item *item)
{
    struct published_item within;

    if (text == NULL || !read_item(text, false, &within) || strcmp(within.name, "within") != 0 ||
        strcmp(within.unit, item->unit) != 0 || !published_parse(within.text, &item->within))
        return false;
    return item->within >= 0;
}

static void take_expect(struct reader *reader, struct published_case *c, char *rest)
{
    struct published_item item;
    char *first = next_item(&rest), *second = next_item(&rest);

    if (c->expect_count == PUBLISHED_ITEMS_MAX || first == NULL ||
        !read_item(first, false, &item) || !read_within(second, &item) ||
        *skip_blanks(rest) != '\0')
        reader->trouble = "expect is NAME VALUE [UNIT]   within TOLERANCE [UNIT]";
    else
        c->expect[c->expect_count++] = item;
}

static void take_columns(struct reader *reader, struct published_case *c, char *rest)
{
    char *text;

    c->column_count = 0;
    reader->trouble = "columns are NAME [UNIT], two blanks between, then within TOLERANCE [UNIT]";
    while ((text = next_item(&rest)) != NULL && strncmp(text, "within", 6) != 0) {
        if (c->column_count == PUBLISHED_ITEMS_MAX ||
            !read_item(text, true, &c->columns[c->column_count++]))
            return;
    }
    if (c->column_count < 2 || *skip_blanks(rest) != '\0' ||
        !read_within(text, &c->columns[c->column_count - 1]))
        return;
    reader->trouble = NULL;
}

/* Half of the last digit of a printed number; next to nothing for a fraction, which is exact. */
static double half_digit(const char *text)
{
    const char *point = strchr(text, '.'), *power = strpbrk(text, "eE");
    size_t decimals = point == NULL ? 0 : strspn(point + 1, "0123456789");

    if (strchr(text, '/') != NULL)
        return 1e-9;
    return 0.5 * pow(10, (power == NULL ? 0 : atof(power + 1)) - (double)decimals);
}

static const char *trouble_of_origin(const char *origin)
{
    if (strcmp(origin, "computed") == 0)
        return "what was computed here is not published: it checks nothing";
    if (strcmp(origin, "read") != 0 && strcmp(origin, "memory") != 0 &&
        strcmp(origin, "practice") != 0)
        return "a case needs an origin: read, memory or practice";
    return NULL;
}

/* What a case lacks; NULL for nothing. */
static const char *trouble_of_case(const struct published_case *c)
{
    if (c->group[0] == '\0')
        return "a case needs a group: the title of `all` above it";
    if (c->source[0] == '\0')
        return "a case needs a source";
    if (c->place[0] == '\0')
        return "a case needs a place in its source";
    if (trouble_of_origin(c->origin) != NULL)
        return trouble_of_origin(c->origin);
    if (c->function[0] == '\0')
        return "a case needs a function";
    if (c->expect_count == 0)
        return "a case needs something to expect";
    if (c->exception[0] != '\0' && c->expect_count != 1)
        return "an exception expects one number";
    for (size_t i = 0; i < c->expect_count; i++) {
        const struct published_item *e = &c->expect[i];

        if (c->because[0] == '\0' && e->within > half_digit(e->text) * (1 + 1e-9))
            return "a tolerance over half the last printed digit needs a because";
    }
    return NULL;
}

/* Ends the case under way: it must be whole. */
static void finish_case(struct reader *reader)
{
    if (!reader->in_case)
        return;
    reader->in_case = false;
    reader->trouble = trouble_of_case(&reader->now);
    if (reader->trouble == NULL && reader->count == PUBLISHED_CASES_MAX)
        reader->trouble = "too many cases";
    if (reader->trouble == NULL)
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
    reader->now.line = reader->line;

    struct published_case *c = is_case ? &reader->now : &reader->all;

    if (is_case ? !copy(c->title, sizeof c->title, title) : !copy(c->group, sizeof c->group, title))
        reader->trouble = "too long";
}

/* Puts one value of a row where its column says; a given one becomes part of the title. */
static bool take_value(struct published_case *c, size_t column, const char *value)
{
    struct published_item item = c->columns[column];
    size_t length = strlen(c->title);

    if (!copy(item.text, sizeof item.text, value))
        return false;
    if (column + 1 == c->column_count) {
        c->expect[c->expect_count++] = item;
        return true;
    }
    snprintf(c->title + length, sizeof c->title - length, "%s%s %s%s%s", length > 0 ? ", " : "",
             item.name, item.text, item.unit[0] != '\0' ? " " : "", item.unit);
    return put_given(c, &item);
}

/* A case from the values of one row. */
static void begin_row(struct reader *reader, char *rest)
{
    begin_block(reader, true, "");
    if (reader->trouble != NULL)
        return;

    char *save = NULL, *value = strtok_r(rest, " \t", &save);
    size_t at = 0;

    while (value != NULL && at < reader->now.column_count && take_value(&reader->now, at, value)) {
        at++;
        value = strtok_r(NULL, " \t", &save);
    }
    if (value != NULL || at == 0 || at != reader->now.column_count)
        reader->trouble = "a row has a value for each of the columns above it";
}

static void go_on_with_text(struct reader *reader, const char *text)
{
    if (reader->text == NULL) {
        reader->trouble = "a line begins with a blank only to go on with a text";
        return;
    }

    size_t length = strlen(reader->text);

    if (length + 1 + strlen(text) >= reader->text_size)
        reader->trouble = "too long";
    else
        snprintf(reader->text + length, reader->text_size - length, " %s", text);
}

/* Takes a line that is one text; false when its key is of another kind. */
static bool take_text(struct reader *reader, struct published_case *c, const char *key,
                      const char *rest)
{
    const struct {
        const char *key;
        char *to;
        size_t size;
    } texts[] = {
        {"source", c->source, sizeof c->source},
        {"place", c->place, sizeof c->place},
        {"origin", c->origin, sizeof c->origin},
        {"function", c->function, sizeof c->function},
        {"because", c->because, sizeof c->because},
        {"exception", c->exception, sizeof c->exception},
    };

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(key, texts[i].key) == 0) {
            reader->text = texts[i].to;
            reader->text_size = texts[i].size;
            if (!copy(texts[i].to, texts[i].size, rest))
                reader->trouble = "too long";
            return true;
        }
    }
    return false;
}

static void take_line(struct reader *reader, char *line)
{
    struct published_case *c = reader->in_case ? &reader->now : &reader->all;
    bool goes_on = line[0] == ' ' || line[0] == '\t';

    cut_end(line);
    if (*skip_blanks(line) == '\0' || line[0] == '#')
        return;
    if (goes_on) {
        go_on_with_text(reader, skip_blanks(line));
        return;
    }

    size_t key_length = strcspn(line, " \t");
    char *rest = skip_blanks(line + key_length + (line[key_length] != '\0'));

    line[key_length] = '\0';
    reader->text = NULL;
    if (strcmp(line, "case") == 0 || strcmp(line, "all") == 0)
        begin_block(reader, strcmp(line, "case") == 0, rest);
    else if (strcmp(line, "row") == 0)
        begin_row(reader, rest);
    else if (strcmp(line, "given") == 0)
        take_given(reader, c, rest);
    else if (strcmp(line, "expect") == 0 && reader->in_case)
        take_expect(reader, c, rest);
    else if (strcmp(line, "columns") == 0 && !reader->in_case)
        take_columns(reader, c, rest);
    else if (!take_text(reader, c, line, rest))
        reader->trouble = "a line begins with all, case, row, columns, source, place, origin, "
                          "function, given, because, exception or, in a case, expect";
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
