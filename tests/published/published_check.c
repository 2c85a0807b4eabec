/* SPDX-License-Identifier: MIT */
#include "published.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

/* Fails the running test. Unlike cmocka's function it is declared not to return. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static _Noreturn void
refuse(const struct published_case *c, const char *format, ...)
{
    va_list args;

    print_error("line %d: ", c->line);
    va_start(args, format);
    vprint_error(format, args);
    va_end(args);
    print_error("\n");
    _fail(__FILE__, __LINE__);
    abort();
}

static struct published_item *find_given(struct published_case *c, const char *name)
{
    for (size_t i = 0; i < c->given_count; i++) {
        if (strcmp(c->given[i].name, name) == 0) {
            c->given[i].used = true;
            return &c->given[i];
        }
    }
    return NULL;
}

bool published_parse(const char *text, double *ret_value)
{
    char *end;
    double value = strtod(text, &end);

    if (end == text)
        return false;
    if (*end == '/') {
        const char *below = end + 1;

        value /= strtod(below, &end);
        if (end == below)
            return false;
    }
    *ret_value = value;
    return *end == '\0' && isfinite(value);
}

/* The number that an item holds in that unit; anything else fails the test. */
static double item_number(const struct published_case *c, const struct published_item *item,
                          const char *unit)
{
    double value;

    if (!published_parse(item->text, &value))
        refuse(c, "%s: not a number: %s", item->name, item->text);
    if (strcmp(item->unit, unit) != 0)
        refuse(c, "%s is in \"%s\", wanted in \"%s\"", item->name, item->unit, unit);
    return value;
}

double published_number(struct published_case *c, const char *name, const char *unit)
{
    struct published_item *item = find_given(c, name);

    if (item == NULL)
        refuse(c, "%s needs %s", c->function, name);
    return item_number(c, item, unit);
}

double published_number_or(struct published_case *c, const char *name, const char *unit,
                           double otherwise)
{
    struct published_item *item = find_given(c, name);

    return item == NULL ? otherwise : item_number(c, item, unit);
}

const char *published_text(struct published_case *c, const char *name)
{
    struct published_item *item = find_given(c, name);

    if (item == NULL)
        refuse(c, "%s needs %s", c->function, name);
    return item->text;
}

void published_answer(struct published_answers *answers, const char *name, double value,
                      const char *unit)
{
    if (answers->count == PUBLISHED_ITEMS_MAX)
        fail_msg("too many answers");
    answers->all[answers->count].name = name;
    answers->all[answers->count].value = value;
    answers->all[answers->count].unit = unit;
    answers->count++;
}

static const char *status_name(enum status status)
{
#define STATUS_NAME(name, number, text)                                                            \
    if (status == name)                                                                            \
        return #name;
    STATUS_LIST(STATUS_NAME)
#undef STATUS_NAME
    return "unknown status";
}

/* Whether an answer is as published; one that an exception excuses may not be. */
static bool check_answer(const struct published_case *c, struct published_item *expect,
                         const struct published_answers *answers)
{
    double want = item_number(c, expect, expect->unit);
    size_t i = 0;

    while (i < answers->count && strcmp(answers->all[i].name, expect->name) != 0)
        i++;
    if (i == answers->count)
        refuse(c, "%s gives no %s", c->function, expect->name);
    if (strcmp(answers->all[i].unit, expect->unit) != 0)
        refuse(c, "%s comes in \"%s\"", expect->name, answers->all[i].unit);
    expect->found = answers->all[i].value;

    bool is_near = near_is(expect->found, want, expect->within);

    if (!is_near && (c->exception[0] == '\0' || !isfinite(expect->found)))
        refuse(c, "%s: got %.10g, published %s within %g (%s, %s)", expect->name, expect->found,
               expect->text, expect->within, c->source, c->place);
    return is_near;
}

static const struct published_function *
find_function(const char *name, const struct published_function *const *tables)
{
    for (; *tables != NULL; tables++) {
        for (const struct published_function *f = *tables; f->name != NULL; f++) {
            if (strcmp(f->name, name) == 0)
                return f;
        }
    }
    return NULL;
}

void published_check(struct published_case *c, const struct published_function *const *tables)
{
    const struct published_function *function = find_function(c->function, tables);
    struct published_answers answers = {.count = 0};

    if (function == NULL)
        refuse(c, "no function goes by %s", c->function);

    enum status status = function->run(c, &answers);

    for (size_t i = 0; i < c->given_count; i++) {
        if (!c->given[i].used)
            refuse(c, "%s does not look at %s", c->function, c->given[i].name);
    }
    if (status != STATUS_OK)
        refuse(c, "failed with %s", status_name(status));
    for (size_t i = 0; i < c->expect_count; i++) {
        if (check_answer(c, &c->expect[i], &answers) && c->exception[0] != '\0')
            refuse(c, "comes out right: take the exception's mark away (%s)", c->exception);
    }
}
