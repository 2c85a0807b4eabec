/* SPDX-License-Identifier: MIT */

/* Hostile files: control characters in every text, key and section, and as much of
 * everything as a file can hold. None of them reach a terminal, and reading takes bounded
 * time and memory. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "bench_refusal.h"

/* Of the processor; the sanitizers' own part is not the program's. */
enum { MEGABYTES_MAX = 256 };

void __asan_init(void) __attribute__((weak));

/* A text that grows. */
struct made {
    char *text;
    size_t length, capacity;
};

static void add_bytes(struct made *made, const char *bytes, size_t length)
{
    if (made->length + length > made->capacity) {
        made->capacity = 2 * (made->length + length);
        made->text = realloc(made->text, made->capacity);
        assert_non_null(made->text);
    }
    memcpy(made->text + made->length, bytes, length);
    made->length += length;
}

static void add(struct made *made, const char *text)
{
    add_bytes(made, text, strlen(text));
}

static void add_numbered(struct made *made, const char *before, int number, const char *behind)
{
    char text[200];

    snprintf(text, sizeof text, "%s%d%s", before, number, behind);
    add(made, text);
}

static void add_repeated(struct made *made, const char *part, int times)
{
    for (int i = 0; i < times; i++)
        add(made, part);
}

/* --- what is asked of every file --- */

static const char *shelf_of(const struct bench *bench)
{
    return tree_path(bench->tree, "shelf");
}

static void put(struct bench *bench, const char *file, struct made *made)
{
    char name[200];

    (void)mkdir(shelf_of(bench), 0700);
    snprintf(name, sizeof name, "shelf/%s", file);
    snprintf(bench->profile, sizeof bench->profile, "%s", tree_path(bench->tree, name));
    tree_write(bench->profile, made->text, made->length);
    free(made->text);
    *made = (struct made){.text = NULL};
}

/* CSV ends its lines in CR LF, as it should. */
static void join_line_ends(struct command *command)
{
    size_t to = 0;

    for (size_t i = 0; i < command->out_length; i++)
        if (command->out[i] != '\r' || command->out[i + 1] != '\n')
            command->out[to++] = command->out[i];
    command->out_length = to;
}

static void run(const struct bench *bench, const char *const *words, const char *what)
{
    struct command command;

    command_run_words(bench, words, &command);
    print_message("%s, %s: %.3f s, %.1f MB\n", what, words[0], command.seconds,
                  (double)command.peak_bytes / 1e6);
    if (command.signalled || command.code > CANNOT)
        fail_msg("%s, %s: %s %d", what, words[0], command.signalled ? "signal" : "exit",
                 command.code);
    join_line_ends(&command);
    if (!command_is_harmless(command.out, command.out_length) ||
        !command_is_harmless(command.err, command.err_length))
        fail_msg("%s, %s: steers the terminal", what, words[0]);
    if (!__asan_init)
        assert_true(command.peak_bytes < MEGABYTES_MAX * 1000000LL);
    command_done(&command);
}

static void survive(struct bench *bench, const char *what)
{
    const char *const check[] = {"check", bench->profile, NULL};
    const char *const figures[] = {"figures", "--more", bench->profile, NULL};
    const char *const shelf[] = {"shelf", "--shelf", shelf_of(bench), NULL};
    const char *const csv[] = {"shelf", "--csv", "--shelf", shelf_of(bench), NULL};

    run(bench, check, what);
    run(bench, figures, what);
    run(bench, shelf, what);
    run(bench, csv, what);
}

/* --- what steers a terminal --- */

static const char *const steering[] = {
    "\033]0;owned\007",
    "\033[31m\033[2J\033[?1049l\033P0;1|17/ab\033\\",
    "\x9B"
    "32m", /* CSI in C1 as a byte */
    "\xC2\x9B"
    "33m\xC2\x90q\xC2\x9C",                             /* and as UTF-8, with a DCS */
    "\xC0\xAF\xC1\x9B\xE0\x80\x9B\xF0\x80\x80\x9B",     /* overlong: a slash, ESC-like, CSI twice */
    "\xED\xA0\x80\xED\xBF\xBF\xF4\x90\x80\x80\xFF\xFE", /* surrogates, beyond Unicode, no UTF-8 */
    "\xE2\x80\xAE\xE2\x81\xA6\xE2\x80\x8F\xD8\x9C",     /* directions */
    "\xE2\x80\xA8\xE2\x80\xA9\xEF\xBB\xBF\xF3\xA0\x80\xA1", /* separators, a mark, a tag */
    "\b\b\b\r\v\f\x0E\x0F\x1A\177",
    "../../../../../../tmp/escaped/%2e%2e/$(id)`id`",
};
enum { STEERING = sizeof steering / sizeof steering[0] };

static const char *const texts[][2] = {
    {"instrument", "name"},     {"instrument", "maker"},      {"instrument", "serial"},
    {"instrument", "built"},    {"instrument", "owner"},      {"instrument", "contact"},
    {"instrument", "note"},     {"instrument", "kind"},       {"board", "wood"},
    {"neck", "wood"},           {"targets", "preset"},        {"string.1", "note"},
    {"visit.1", "date"},        {"visit.1", "reason"},        {"visit.1", "note"},
    {"visit.1", "humidity"},    {"visit.1.pass.1", "label"},  {"visit.1.pass.1", "time"},
    {"visit.1.pass.1", "note"}, {"visit.1.pass.1", "relief"}, {"visit.1.pass.1", "buzz.6"},
    {"visit.1.work.1", "kind"}, {"visit.1.work.1", "amount"}, {"visit.1.work.1", "note"},
};

static void add_value(struct made *made, const char *value, bool encoded)
{
    for (const char *at = value; *at; at++) {
        char code[8];

        snprintf(code, sizeof code, "%%%02X", (unsigned)(unsigned char)*at);
        if (encoded)
            add(made, code);
        else
            add_bytes(made, at, 1);
    }
}

static void add_board(struct made *made)
{
    add(made, "[profile]\nformat = 1\n[board]\nscale = 25.5 in\nstrings = 6\nfrets = 20\n"
              "join_fret = 14\n[visit.2]\ndate = 2026-03-02\n[visit.2.pass.1]\nrelief = .010 in\n"
              "nut_gap.1 = .02 in\naction.6 = 7/64 in\n");
}

/* In every text, or raw in comments, keys and sections too. */
static void make_steering(struct made *made, const char *evil, bool encoded)
{
    add_board(made);
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        add(made, "[");
        add(made, texts[i][0]);
        add(made, "]\n");
        add(made, texts[i][1]);
        add(made, encoded ? " = \"Q" : " = Q");
        add_value(made, evil, encoded);
        add(made, encoded ? "\"\n" : "\n");
    }
    if (encoded)
        return;
    const char *const frames[][2] = {{"; ", "\n"},   {"[", "]\n"},         {"[visit.1.", "]\n"},
                                     {"", " = 1\n"}, {"owner = \"", "\n"}, {"", "\n"}};
    for (size_t i = 0; i < sizeof frames / sizeof frames[0]; i++) {
        add(made, frames[i][0]);
        add(made, evil);
        add(made, frames[i][1]);
    }
}

static void nothing_steers_what_is_printed(void **state)
{
    for (int i = 0; i < STEERING * 2; i++) {
        struct made made = {.text = NULL};
        char what[40];

        snprintf(what, sizeof what, "steering %d%s", i / 2, i % 2 ? ", encoded" : "");
        make_steering(&made, steering[i / 2], i % 2);
        put(*state, "a.ini", &made);
        survive(*state, what);
    }
}

static void expect_nothing_raw(const struct terminal *terminal)
{
    static const char *const parts[] = {
        "\033]0;",      "\033P",    "\x9B",         "\xC2\x9B",     "\xC2\x90",     "\xC0\xAF",
        "\xED\xA0",     "\xF4\x90", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x80\x8F", "\xD8\x9C",
        "\xE2\x80\xA8", "\xF3\xA0", "\x0E\x0F",     "\x1A",         "\177",         "\v"};

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (bytes_hold(terminal_output(terminal), terminal_bytes(terminal), parts[i]))
            fail_msg("part %zu of what steers reached the terminal", i);
}

/* The shelf with all of them, then each on all its leaves. */
static void nothing_steers_the_screen(void **state)
{
    struct bench *bench = *state;
    const char *const argv[] = {bench_program(), "--shelf", shelf_of(bench), NULL};

    for (int i = 0; i < STEERING; i++) {
        struct made made = {.text = NULL};
        char file[60];

        make_steering(&made, steering[i], true);
        snprintf(file, sizeof file, "%c%.20s.ini", 'a' + i, i == STEERING - 1 ? "" : steering[i]);
        put(bench, file, &made);
    }
    bench->terminal = terminal_start(
        &(struct terminal_setup){.argv = argv, .home = bench->home, .rows = 24, .columns = 80});
    for (int i = 0; i < STEERING; i++) {
        terminal_expect(bench->terminal, "[Shelf]");
        terminal_key(bench->terminal, TERMINAL_HOME);
        for (int k = 0; k < i; k++)
            terminal_key(bench->terminal, TERMINAL_DOWN);
        terminal_key(bench->terminal, TERMINAL_ENTER);
        terminal_expect(bench->terminal, SEEN_BENCH);
        for (int leaf = 0; leaf < 8; leaf++) {
            terminal_key(bench->terminal, TERMINAL_PAGE_DOWN);
            terminal_settle(bench->terminal);
        }
        terminal_type(bench->terminal, "?");
        terminal_settle(bench->terminal);
        terminal_key(bench->terminal, TERMINAL_ESCAPE);
        terminal_settle(bench->terminal);
        terminal_key(bench->terminal, TERMINAL_ESCAPE);
    }
    terminal_expect(bench->terminal, "[Shelf]");
    expect_nothing_raw(bench->terminal);
    terminal_type(bench->terminal, "*q");
    (void)terminal_expect_end(bench->terminal);
}

/* --- as much as a file can hold --- */

enum { KEYS = 249990 }; /* half of it, so that a loaded machine is in time */

static void a_line_of_a_megabyte_is_refused(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    add(&made, "[instrument]\nname = ");
    add_repeated(&made, "1234567890", 100000);
    put(*state, "a.ini", &made);
    survive(*state, "a line of a megabyte");
    struct bench *bench = *state;
    check_refused(bench, bench->profile, "a line");
}

static void a_million_keys_are_refused(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < 1000000; i++)
        add_numbered(&made, "key.", i, " = 1\n");
    put(*state, "a.ini", &made);
    survive(*state, "a million keys");
    struct bench *bench = *state;
    check_refused(bench, bench->profile, "larger than");
}

static void unknown_keys_as_many_as_fit(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < KEYS; i++)
        add_numbered(&made, "key_", i, " = some value\n");
    put(*state, "a.ini", &made);
    survive(*state, "as many unknown keys as fit");
}

static void passes_by_the_thousand(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < 20000; i++) {
        add_numbered(&made, "[visit.", 1 + i / 900, ".pass.");
        add_numbered(&made, "", 1 + i % 900, "]\nrelief = .010 in\naction.6 = 7/64 in\n");
    }
    put(*state, "a.ini", &made);
    survive(*state, "twenty thousand passes");
}

static void changes_by_the_thousand(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < 20000; i++) {
        const int visit = 1 + i % 9999;

        add_numbered(&made, "[visit.", visit, ".string.");
        add_numbered(&made, "", 1 + i % 6, "]\ngauge = .012 in\nmass = absent\n");
        add_numbered(&made, "[visit.", visit, ".targets]\nrelief = \x01\ntouch = absent\n");
        add_numbered(&made, "[visit.", visit, ".board]\nrelief_fret = 0\nscale = 1 in\n");
    }
    add(&made, "[visit.9999]\nhumidity = 40\n[visit.9999.pass.1]\nrelief = .010 in\n");
    put(*state, "a.ini", &made);
    survive(*state, "twenty thousand changes");
}

static void one_key_again_and_again(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    add(&made, "[instrument]\n");
    add_repeated(&made, "note = \"never\x01 the same\"\n", KEYS);
    put(*state, "a.ini", &made);
    survive(*state, "one key again and again");
}

static void sections_as_many_as_fit(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < KEYS / 2; i++)
        add_numbered(&made, "[s", i, "]\nk = v\n");
    put(*state, "a.ini", &made);
    survive(*state, "as many sections as fit");
}

/* Thirty-two megabytes less a little, in lines as long as they may be. */
static void as_many_bytes_as_fit(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    for (int i = 0; i < 31000; i++) {
        add(&made, "note = ");
        add_repeated(&made, "0123456789", 101);
        add(&made, "\n");
    }
    put(*state, "a.ini", &made);
    survive(*state, "thirty-two megabytes");
}

static void a_text_in_pieces_the_wrong_way_round(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    add(&made, "[instrument]\n");
    for (int i = 999; i > 0; i--)
        add_numbered(&made, "note.", i, " = \"a piece of a text that goes on, and on \"\n");
    add(&made, "note = first\n");
    put(*state, "a.ini", &made);
    survive(*state, "a text in a thousand pieces");
}

static void lines_that_go_on_and_on(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    add(&made, "[instrument]\nnote = x");
    add_repeated(&made, "\\\n  and on", KEYS);
    put(*state, "a.ini", &made);
    survive(*state, "a line continued to the end");
}

static void sections_as_deep_as_they_go(void **state)
{
    struct made made = {.text = NULL};

    add_board(&made);
    add(&made, "[visit.1");
    add_repeated(&made, ".pass.1", 140);
    add(&made, "]\nrelief = .01 in\n[");
    add_repeated(&made, "a.", 500);
    add(&made, "]\nk = v\n[");
    add_repeated(&made, "[", 1000);
    add(&made, "\nk = v\n[visit.99999999999999999999999.pass.-1]\nrelief = .01 in\n"
               "[string.99]\nnote = E2\n[visit.0.pass.0]\nrelief = .01 in\n");
    put(*state, "a.ini", &made);
    survive(*state, "deep sections");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(nothing_steers_what_is_printed),
        BENCH_CASE(nothing_steers_the_screen),
        BENCH_CASE(a_line_of_a_megabyte_is_refused),
        BENCH_CASE(a_million_keys_are_refused),
        BENCH_CASE(unknown_keys_as_many_as_fit),
        BENCH_CASE(passes_by_the_thousand),
        BENCH_CASE(changes_by_the_thousand),
        BENCH_CASE(one_key_again_and_again),
        BENCH_CASE(sections_as_many_as_fit),
        BENCH_CASE(as_many_bytes_as_fit),
        BENCH_CASE(a_text_in_pieces_the_wrong_way_round),
        BENCH_CASE(lines_that_go_on_and_on),
        BENCH_CASE(sections_as_deep_as_they_go),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
