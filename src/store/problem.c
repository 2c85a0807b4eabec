/* SPDX-License-Identifier: MIT */
#include "store/problem.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/array.h"
#include "base/utf8.h"

void problems_init(struct problems *problems)
{
    *problems = (struct problems){0};
}

void problems_done(struct problems *problems)
{
    free(problems->items);
    problems_init(problems);
}

static struct problem *next_item(struct problems *problems)
{
    if (problems->count == PROBLEMS_MAX)
        return NULL;
    struct problem *items =
        array_grow(problems->items, problems->count, &problems->capacity, sizeof *items);

    if (!items)
        return NULL;
    problems->items = items;
    return &problems->items[problems->count++];
}

void problem_add(struct problems *problems, size_t line, enum problem_severity severity,
                 const char *format, ...)
{
    va_list arguments;

    if (!problems)
        return;
    problems->errors += severity == PROBLEM_ERROR;
    struct problem *item = next_item(problems);
    if (!item) {
        problems->more++;
        return;
    }
    item->line = (int)line;
    item->severity = severity;
    va_start(arguments, format);
    vsnprintf(item->words, sizeof item->words, format, arguments);
    va_end(arguments);
}

static void merge(struct problem *to, const struct problem *a, size_t a_count,
                  const struct problem *b, size_t b_count)
{
    while (a_count > 0 || b_count > 0) {
        const bool from_a = b_count == 0 || (a_count > 0 && a->line <= b->line);

        *to++ = from_a ? *a : *b;
        if (from_a)
            a++, a_count--;
        else
            b++, b_count--;
    }
}

/* A merge sort, because qsort does not keep the order of equals. */
void problems_sort(struct problems *problems)
{
    const size_t count = problems->count;
    struct problem *spare = malloc((count + 1) * sizeof *spare);

    if (!spare)
        return;
    for (size_t width = 1; width < count; width *= 2) {
        for (size_t at = 0; at < count; at += 2 * width) {
            const size_t a_count = width < count - at ? width : count - at;
            const size_t left = count - at - a_count;
            const struct problem *a = problems->items + at;

            merge(spare + at, a, a_count, a + a_count, width < left ? width : left);
        }
        memcpy(problems->items, spare, count * sizeof *spare);
    }
    free(spare);
}

static void add_rune(struct strbuf *out, const char *bytes, size_t size, bool safe)
{
    if (safe) {
        strbuf_add_bytes(out, bytes, size);
        return;
    }
    for (size_t i = 0; i < size; i++)
        strbuf_addf(out, "\\x%02X", (unsigned)(unsigned char)bytes[i]);
}

struct shown shown_text(const char *text, size_t length)
{
    struct shown shown;
    struct strbuf out = STRBUF(shown.text);
    /* For one character of four bytes as \xNN, and the dots. */
    enum { ROOM = 4 * 4 + 3 };

    for (size_t at = 0; at < length;) {
        uint32_t rune;
        bool valid;
        const size_t size = utf8_decode(text + at, length - at, &rune, &valid);

        if (out.length + ROOM >= out.size) {
            strbuf_add(&out, "...");
            break;
        }
        add_rune(&out, text + at, size, valid && !utf8_unsafe(rune));
        at += size;
    }
    return shown;
}

struct shown shown_string(const char *text)
{
    return shown_text(text, strlen(text));
}
