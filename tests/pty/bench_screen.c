/* SPDX-License-Identifier: MIT */
#include "bench_screen.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <cmocka.h>

/* More rows than any test's terminal has; rows outside are empty. */
enum { ROWS_SEEN = 64 };

static const char *program, *data_folder;

bool bench_set_up(int argc, char **argv)
{
    if (argc < 3) {
        fprintf(stderr, "usage: %s PATH_OF_SILLET FOLDER_OF_TEST_DATA\n", argv[0]);
        return false;
    }
    program = argv[1];
    data_folder = argv[2];
    return true;
}

const char *bench_program(void)
{
    return program;
}

const char *bench_data(const char *name)
{
    static char path[1024];

    snprintf(path, sizeof path, "%s/%s", data_folder, name);
    return path;
}

/* --- a test's folder and terminals --- */

int bench_open(void **state)
{
    struct bench *bench = calloc(1, sizeof *bench);
    void *tree = NULL;

    if (!bench || tree_setup(&tree) != 0)
        return -1;
    bench->tree = tree;
    snprintf(bench->home, sizeof bench->home, "%s/home", bench->tree->folder);
    snprintf(bench->profile, sizeof bench->profile, "%s/bench.ini", bench->tree->folder);
    *state = bench;
    return mkdir(bench->home, 0700);
}

int bench_close(void **state)
{
    struct bench *bench = *state;
    void *tree = bench->tree;

    terminal_stop(bench->other);
    terminal_stop(bench->terminal);
    free(bench);
    return tree_teardown(&tree);
}

void bench_copy(struct bench *bench, const char *name)
{
    size_t length;
    char *bytes = tree_read(bench_data(name), &length);

    assert_non_null(bytes);
    tree_write(bench->profile, bytes, length);
    free(bytes);
}

static struct terminal *start(struct bench *bench, struct terminal_setup setup)
{
    const char *const argv[] = {program, bench->profile, NULL};

    setup.argv = argv;
    setup.home = bench->home;
    return terminal_start(&setup);
}

struct terminal *bench_start_with(struct bench *bench, struct terminal_setup setup)
{
    terminal_stop(bench->terminal);
    bench->terminal = NULL;
    bench->terminal = start(bench, setup);
    terminal_expect(bench->terminal, SEEN_BENCH);
    return bench->terminal;
}

struct terminal *bench_start(struct bench *bench)
{
    return bench_start_with(bench, (struct terminal_setup){.rows = 24, .columns = 80});
}

struct terminal *bench_start_worked(struct bench *bench)
{
    bench_copy(bench, "worked-example.ini");
    return bench_start(bench);
}

struct terminal *bench_start_other(struct bench *bench)
{
    bench->other = start(bench, (struct terminal_setup){.rows = 24, .columns = 80});
    terminal_expect(bench->other, SEEN_BENCH);
    return bench->other;
}

/* --- keys --- */

void bench_enter(struct terminal *terminal, const char *text)
{
    terminal_type(terminal, text);
    terminal_key(terminal, TERMINAL_ENTER);
}

void bench_pad(struct terminal *terminal, const char *text)
{
    for (; *text; text++)
        terminal_keypad(terminal, *text);
}

void bench_expect_restored(struct terminal *terminal)
{
    int row, column;
    bool visible;

    terminal_cursor(terminal, &row, &column, &visible);
    terminal_check(terminal, visible);
    terminal_check(terminal, !terminal_on_alternate_screen(terminal));
    terminal_check(terminal, terminal_modes_restored(terminal));
}

void bench_quit(struct terminal *terminal)
{
    terminal_type(terminal, "q");
    const int status = terminal_expect_end(terminal);

    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    bench_expect_restored(terminal);
}

/* --- what stands on the screen --- */

/* What stands behind a label at the beginning of a row; NULL when the row begins otherwise. */
static const char *behind_label(const char *row, const char *label)
{
    const size_t length = strlen(label);

    row += strspn(row, " ");
    return strncmp(row, label, length) == 0 && (row[length] == ' ' || row[length] == '\0')
               ? row + length
               : NULL;
}

/* The entry line begins like a row of the board; its prompt tells it apart. */
static bool is_prompt(const char *row)
{
    return strstr(row, " >") != NULL;
}

int bench_row(struct terminal *terminal, const char *label, int first)
{
    for (int row = first; row < ROWS_SEEN; row++) {
        const char *text = terminal_row(terminal, row);

        if (behind_label(text, label) && !is_prompt(text))
            return row;
    }
    return -1;
}

static bool row_holds(struct terminal *terminal, const char *label, const char *text)
{
    const int row = bench_row(terminal, label, 0);

    return row >= 0 && strstr(behind_label(terminal_row(terminal, row), label), text);
}

void bench_expect_row_at(struct terminal *terminal, const char *label, const char *text,
                         const char *file, int line)
{
    enum { SLICE_MS = 20 };

    for (int waited = 0; !row_holds(terminal, label, text); waited += SLICE_MS) {
        if (waited > TERMINAL_DEADLINE_MS) {
            print_error("not in the row \"%s\": \"%s\"\n", label, text);
            terminal_fail_at(terminal, "bench_expect_row", file, line);
        }
        if (terminal_pump(terminal, SLICE_MS))
            waited -= SLICE_MS;
    }
}

static void expect_prompt(struct terminal *terminal, const char *format, int string)
{
    char prompt[64];

    /* The format is one of two constants, without its number's place. */
    const char *place = strstr(format, "%d");
    snprintf(prompt, sizeof prompt, "%.*s%d%s", (int)(place - format), format, string, place + 2);
    terminal_expect(terminal, prompt);
}

void bench_expect_gap(struct terminal *terminal, int string)
{
    expect_prompt(terminal, SEEN_PROMPT_GAP, string);
}

void bench_expect_action(struct terminal *terminal, int string)
{
    expect_prompt(terminal, SEEN_PROMPT_ACTION, string);
}

const char *bench_word(struct terminal *terminal, const char *label, int place)
{
    static char word[64];
    const int row = bench_row(terminal, label, 0);
    const char *at = row < 0 ? "" : behind_label(terminal_row(terminal, row), label);

    for (;; place--) {
        at += strspn(at, " ");
        const size_t length = strcspn(at, " ");

        if (place == 0) {
            snprintf(word, sizeof word, "%.*s", (int)length, at);
            return word;
        }
        if (length == 0)
            return "";
        at += length;
    }
}

double bench_number_behind(struct terminal *terminal, const char *words, int first_row)
{
    for (int row = first_row < 0 ? 0 : first_row; row < ROWS_SEEN; row++) {
        const char *at = strstr(terminal_row(terminal, row), words);
        char *end;

        if (!at)
            continue;
        at += strlen(words);
        const double value = strtod(at, &end);

        return end == at ? (double)NAN : value;
    }
    return (double)NAN;
}

/* --- what stands in the file --- */

static bool has_line(const char *bytes, const char *text)
{
    const size_t length = strlen(text);

    for (const char *at = bytes; (at = strstr(at, text)) != NULL; at += length)
        if ((at == bytes || at[-1] == '\n') && at[length] == '\n')
            return true;
    return false;
}

/* The lines that begin as the text does, up to its '='. */
static void print_lines_like(const char *bytes, const char *text)
{
    const size_t length = strcspn(text, "=");

    for (const char *at = bytes; *at; at += strcspn(at, "\n"), at += *at == '\n')
        if (strncmp(at, text, length) == 0)
            print_error("found: %.*s\n", (int)strcspn(at, "\n"), at);
}

void bench_expect_line_at(const struct bench *bench, const char *text, bool wanted,
                          const char *file, int line)
{
    size_t length;
    char *bytes = tree_read(bench->profile, &length);
    const bool found = bytes && has_line(bytes, text);

    if (found != wanted) {
        print_error("%s in %s: %s\n", wanted ? "missing" : "not wanted", bench->profile, text);
        if (bytes)
            print_lines_like(bytes, text);
        free(bytes);
        _fail(file, line);
    }
    free(bytes);
}
