/* SPDX-License-Identifier: MIT */
#include "bench_figures.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "bench_screen.h"
#include "near.h"

struct line {
    char section[32], key[64], value[64];
};

/* The next "key = value"; NULL after the last. */
static const char *next_line(const char *at, struct line *line)
{
    while (*at) {
        const char *end = at + strcspn(at, "\n");
        const int length = (int)(end - at);
        char text[160];
        const bool section = *at == '[';

        snprintf(text, sizeof text, "%.*s", length, at);
        at = *end ? end + 1 : end;
        if (section)
            (void)sscanf(text, "[%31[^]]", line->section);
        else if (sscanf(text, "%63[a-z0-9_.] = %63s", line->key, line->value) == 2)
            return at;
    }
    return NULL;
}

static bool find(const char *text, const char *section, const char *key, struct line *line)
{
    line->section[0] = '\0';
    while ((text = next_line(text, line)) != NULL)
        if (strcmp(line->section, section) == 0 && strcmp(line->key, key) == 0)
            return true;
    return false;
}

double figure_in(const char *text, const char *section, const char *key)
{
    struct line line;

    if (!find(text, section, key, &line))
        fail_msg("no figure [%s] %s", section, key);
    return strtod(line.value, NULL);
}

double figure_of_string(const char *text, int string, const char *key)
{
    char section[16];

    snprintf(section, sizeof section, "string.%d", string);
    return figure_in(text, section, key);
}

double figure_of_move(const char *text, const char *move, int string)
{
    char key[32];
    struct line line;

    snprintf(key, sizeof key, "%s.%d_mm", move, string);
    return find(text, "moves", key, &line) ? strtod(line.value, NULL) : 0;
}

void figures_expect_row(struct terminal *terminal, const char *label, const char *text,
                        const char *move, int strings)
{
    for (int string = strings; string >= 1; string--) {
        const char *word = bench_word(terminal, label, strings - string);
        const double want = figure_of_move(text, move, string) / 25.4;
        char *end;
        const double got = strtod(word, &end);

        if (end == word)
            assert_near(want, 0, 1e-12);
        else
            assert_near(got, want + .0005, .000501);
    }
}

static bool is_of_moves(const struct line *line)
{
    static const char *const keys_left_out[] = {"setback_", "nut_advance_", "cents_"};

    if (strcmp(line->section, "neck-curve") != 0 && strcmp(line->section, "reset") != 0 &&
        strncmp(line->section, "string.", 7) != 0)
        return false;
    for (size_t i = 0; i < sizeof keys_left_out / sizeof keys_left_out[0]; i++)
        if (strncmp(line->key, keys_left_out[i], strlen(keys_left_out[i])) == 0)
            return false;
    return true;
}

void figures_expect_moves(const char *got, const char *want)
{
    struct line line = {.section = ""}, found;
    int compared = 0;

    while ((want = next_line(want, &line)) != NULL) {
        char *end;
        const double value = strtod(line.value, &end);

        if (!is_of_moves(&line))
            continue;
        if (!find(got, line.section, line.key, &found))
            fail_msg("no figure [%s] %s", line.section, line.key);
        compared++;
        if (*end) {
            assert_string_equal(found.value, line.value);
            continue;
        }
        if (!near_is(strtod(found.value, NULL), value, 1e-6 * fmax(fabs(value), 1e-3)))
            fail_msg("[%s] %s is %s, want %s", line.section, line.key, found.value, line.value);
    }
    assert_true(compared > 80);
}
