/* SPDX-License-Identifier: MIT */
#include "shop_day.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "bench_command.h"

enum { STRIP_ROW = 1, LEAVES_MAX = 12, CELLS_MAX = 60 };

const char *day_shelf(const struct bench *bench)
{
    return tree_path(bench->tree, "shelf");
}

struct terminal *day_begin(struct bench *bench, const char *file)
{
    const char *const argv[] = {bench_program(), "--shelf", day_shelf(bench), NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = bench->home, .rows = 24, .columns = 80};

    snprintf(bench->profile, sizeof bench->profile, "%s/%s", argv[2], file);
    terminal_stop(bench->terminal);
    bench->terminal = NULL;
    bench->terminal = terminal_start(&setup);
    terminal_expect(bench->terminal, "[Shelf]");
    return bench->terminal;
}

/* --- from cell to cell --- */

/* The leaf on top, "[Bench]"; "" where the strip names none. */
static void find_top_leaf(struct terminal *terminal, char *ret_name, size_t size)
{
    const char *strip = terminal_row(terminal, STRIP_ROW);
    const char *from = strchr(strip, '['), *to = strchr(strip, ']');

    ret_name[0] = '\0';
    if (from && to && to > from)
        snprintf(ret_name, size, "%.*s", (int)(to - from + 1), from);
}

static bool is_behind(struct terminal *terminal, const char *leaf)
{
    const char *strip = terminal_row(terminal, STRIP_ROW);
    const char *at = strstr(strip, leaf);

    return at && at > strchr(strip, '[');
}

void day_turn_to(struct terminal *terminal, const char *leaf)
{
    char wanted[24], top[24];

    snprintf(wanted, sizeof wanted, "[%s]", leaf);
    for (int turned = 0; turned < LEAVES_MAX; turned++) {
        find_top_leaf(terminal, top, sizeof top);
        if (strcmp(top, wanted) == 0)
            return;
        terminal_key(terminal, is_behind(terminal, leaf) ? TERMINAL_PAGE_DOWN : TERMINAL_PAGE_UP);
        terminal_expect_gone(terminal, top);
    }
    terminal_expect(terminal, wanted);
}

void day_steps(struct terminal *terminal, enum terminal_key key, int count, const char *prompt)
{
    while (count-- > 0)
        terminal_key(terminal, key);
    terminal_expect(terminal, prompt);
}

void day_find_cell(struct terminal *terminal, enum terminal_key key, const char *prompt)
{
    int column;

    for (int pressed = 0; pressed < CELLS_MAX; pressed++) {
        if (terminal_find(terminal, prompt, &column) >= 0)
            return;
        terminal_key(terminal, key);
        terminal_settle(terminal);
    }
    terminal_expect(terminal, prompt);
}

void day_write(struct terminal *terminal, const char *prompt, const char *text)
{
    terminal_expect(terminal, prompt);
    bench_enter(terminal, text);
}

void day_read(struct terminal *terminal, const char *prompt, const char *number)
{
    terminal_expect(terminal, prompt);
    if (number)
        bench_pad(terminal, number);
    bench_pad(terminal, "\r");
}

void day_enter_pass(struct terminal *terminal, const struct day_pass *pass)
{
    char prompt[64];

    day_read(terminal, "relief at fret 7 >", pass->relief);
    for (int i = 0; i < DAY_STRINGS; i++) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_GAP, DAY_STRINGS - i);
        day_read(terminal, prompt, pass->gap[i]);
    }
    for (int i = 0; i < DAY_STRINGS; i++) {
        snprintf(prompt, sizeof prompt, SEEN_PROMPT_ACTION, DAY_STRINGS - i);
        day_read(terminal, prompt, pass->action[i]);
    }
    for (int i = 0; i < 2; i++)
        day_read(terminal, "exposure >", pass->exposure[i]);
    terminal_expect(terminal, SEEN_PASS_END);
}

void day_mark_done(struct terminal *terminal, const char *move, const char *left)
{
    char marked[40], prompt[40];

    day_turn_to(terminal, "Work");
    snprintf(prompt, sizeof prompt, "%s, what was done >", move);
    terminal_expect(terminal, prompt);
    terminal_type(terminal, " ");
    snprintf(marked, sizeof marked, "[x] %-6s done ", move);
    terminal_expect(terminal, marked);
    terminal_expect(terminal, left);
}

void day_leave_and_return(struct terminal *terminal, const char *name, bool open)
{
    char in_hand[64];

    terminal_type(terminal, "*q");
    terminal_expect(terminal, "[Shelf]");
    snprintf(in_hand, sizeof in_hand, ">%s", name);
    terminal_expect(terminal, in_hand);
    /* The list is drawn at once, and what was read of the file anew follows. */
    if (open)
        terminal_expect(terminal, "moves open");
    else
        terminal_expect_gone(terminal, "moves open");
    terminal_expect_gone(terminal, "not read yet");
    terminal_key(terminal, TERMINAL_ENTER);
    terminal_expect(terminal, SEEN_BENCH);
    terminal_expect(terminal, name);
}

void day_wait_second(struct terminal *terminal)
{
    const time_t then = time(NULL);

    while (time(NULL) == then)
        (void)terminal_pump(terminal, 20);
}

/* --- what the screen and the file say --- */

char *day_figures(const struct bench *bench)
{
    struct command command;

    command_run(bench, "figures", bench->profile, &command);
    assert_false(command.signalled);
    assert_int_equal(command.code, 0);
    char *text = command.out;

    command.out = NULL;
    command_done(&command);
    return text;
}

double day_bracket(struct terminal *terminal, const char *label, int place)
{
    const char *word = bench_word(terminal, label, place);
    char *end;
    const double value = strtod(word + 1, &end);

    return word[0] == '(' && end > word + 1 && strcmp(end, ")") == 0 ? value : (double)NAN;
}

const char *day_behind_at(struct terminal *terminal, const char *text, const char *file, int line)
{
    terminal_expect_at(terminal, text, file, line);
    const char *row = terminal_row(terminal, terminal_find(terminal, text, NULL));
    const char *at = strstr(row, text);

    if (!at)
        terminal_fail_at(terminal, text, file, line);
    return at + strlen(text);
}
